package group

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
)

// someone is a person as a test writes them down. The zero value of a part of
// it means that it is not given.
type someone struct {
	group   string
	sex     scoring.Sex
	age     int
	vo2     int    // as measured in a laboratory
	test    string // of its own instead: "12:30 run-1.5-mile" by the inputs' texts
	resting int
	leftOut Reason
	change  string // key of the row in the table of changes; empty where there was one round
}

// scores keeps what has been scored: tests ask for the same people often.
var scores = map[someone]*scoring.Score{}

// member scores someone as the program does.
func (s someone) member() Member {
	key := s
	key.group, key.leftOut, key.change = "", 0, ""
	score, known := scores[key]
	if !known {
		assessed := scoring.Assess(key.entry())
		score = &assessed
		scores[key] = score
	}
	m := Member{Group: s.group, Score: score, LeftOut: s.leftOut}
	switch s.change {
	case "":
		return m
	case "change-new":
		m.Presence = change.Newcomer
		return m
	case "change-undated":
		m.Presence = change.Undated
		return m
	}
	m.Presence = change.TestedAgain
	if verdict, ok := map[string]change.Verdict{"change-fall": change.RealFall, "change-unclear": change.ProbableRise, "change-rise": change.RealRise}[s.change]; ok {
		m.Change = &change.Comparison{Verdict: verdict, Difference: scoring.VO2(s.vo2%7) - 2}
	}
	return m
}

func (s someone) entry() *scoring.Entry {
	e := &scoring.Entry{}
	e.SetSex(s.sex, "")
	if s.age > 0 {
		e.Set(scoring.Age, scoring.Q(float64(s.age)+0.5, scoring.Years), "")
	}
	if s.resting > 0 {
		e.Set(scoring.RestingHR, scoring.Q(float64(s.resting), scoring.BeatsPerMinute), "")
	}
	if s.vo2 > 0 {
		trial := scoring.Trial{Test: fieldtests.Measured}
		trial.Set(scoring.MeasuredVO2, scoring.Q(float64(s.vo2), scoring.MLPerKgMin), "")
		e.Trials = append(e.Trials, trial)
	}
	if s.test != "" {
		e.Trials = append(e.Trials, fieldTrial(s.test))
	}
	return e
}

// fieldTrial reads "run-1.5-mile 720": the test, and its result in the unit of
// the result's input.
func fieldTrial(text string) scoring.Trial {
	id, value, _ := strings.Cut(text, " ")
	test, ok := fieldtests.ByID(id)
	if !ok {
		panic("no field test " + id)
	}
	trial := scoring.Trial{Test: test}
	var x float64
	if _, err := fmt.Sscan(value, &x); err == nil {
		in := test.Results[0].Input
		trial.Set(in, scoring.Q(x, in.Info().Unit), "")
	}
	return trial
}

func members(people []someone) []Member {
	var all []Member
	for _, s := range people {
		all = append(all, s.member())
	}
	return all
}

func summarise(t testing.TB, people []someone, smallest int) Summary {
	t.Helper()
	s, err := Summarise(members(people), smallest)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// times repeats someone.
func times(n int, s someone) []someone {
	var all []someone
	for range n {
		all = append(all, s)
	}
	return all
}

func all(people ...[]someone) []someone {
	var joined []someone
	for _, p := range people {
		joined = append(joined, p...)
	}
	return joined
}

// invent makes a roster: some of them of adults, some of pupils, some of both,
// with groups of any size in any spelling, and things missing.
func invent(r *rand.Rand) []someone {
	spellings := [][]string{{"Stores", "stores ", " STORES"}, {"Yard 2", "yard2"}, {"Office"}, {"Kitchen", "kitchen"}, {"Night shift", "Night  Shift"}, {""}}
	groups := 1 + r.IntN(len(spellings))
	kind := r.IntN(5)
	women, gap := r.Float64(), r.Float64()*0.15
	var people []someone
	for g := range groups {
		for range int(r.ExpFloat64() * 9) {
			s := someone{group: spellings[g][r.IntN(len(spellings[g]))], sex: scoring.Male, vo2: 18 + r.IntN(45), resting: 36 + r.IntN(60)}
			if r.Float64() < women {
				s.sex = scoring.Female
			}
			switch {
			case kind == 0: // men of one decade, whose table is one row
				s.sex, s.age = scoring.Male, 20+r.IntN(10)
			case kind == 1: // boys, who have one line
				s.sex, s.age = scoring.Male, 11+r.IntN(6)
			case kind == 2:
				s.age = 7 + r.IntN(11)
			case kind == 3:
				s.age = 15 + r.IntN(8)
			default:
				s.age = 18 + int(r.ExpFloat64()*18)%70
			}
			for _, lose := range []func(){
				func() { s.sex = scoring.SexUnspecified }, func() { s.age = 0 }, func() { s.vo2 = 0 }, func() { s.resting = 0 },
				func() { s.vo2, s.leftOut = 0, Unreadable },
				func() { s.vo2, s.test = 0, fmt.Sprint("run-1.5-mile ", 600+60*r.IntN(8)) },
			} {
				if r.Float64() < gap {
					lose()
				}
			}
			people = append(people, s)
		}
	}
	if r.IntN(2) == 0 { // the second round
		keys := []string{"change-new", "change-other", "change-fall", "change-unclear", "change-rise", "change-undated"}
		keys = keys[:2+r.IntN(5)]
		for i := range people {
			people[i].change = keys[int(r.ExpFloat64()*2)%len(keys)]
		}
	}
	r.Shuffle(len(people), func(i, j int) { people[i], people[j] = people[j], people[i] })
	return people
}
