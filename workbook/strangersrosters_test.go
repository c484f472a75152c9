package workbook

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/people"
	"tenback/workbook/roster"
)

// TestRostersByStrangers scores rosters by people who had not seen the code, without
// any option. The golden file counts the rows and lists those not scored as a careful
// person would: "wrong" has another score, "asked" a question, "missed" neither, and
// "extra" is a line taken for a person without a result.
func TestRostersByStrangers(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 30 rosters")
	}
	folders, err := filepath.Glob("../testdata/strangers/rosters*")
	if err != nil || len(folders) == 0 {
		t.Fatal(folders, err)
	}
	var report strings.Builder
	for _, folder := range folders {
		count := map[string]int{}
		var open []string
		rosters := map[string]*strangeRoster{}
		all := readCSV(t, filepath.Join(folder, "truth.csv"))
		for _, record := range all[1:] {
			truth := map[string]string{}
			for i, name := range all[0] {
				truth[name] = record[i]
			}
			s := rosters[truth["file"]]
			if s == nil {
				s = openStrangeRoster(filepath.Join(folder, truth["file"]))
				rosters[truth["file"]] = s
			}
			verdict, got := s.judge(truth)
			count[truth["kind"]+" "+verdict]++
			if verdict != "right" {
				open = append(open, strings.TrimSpace(fmt.Sprintf("%s %s!%s %s %s %s %s", verdict, truth["file"], truth["row"], truth["kind"], truth["name"], truth["test"], got)))
			}
		}
		slices.Sort(open)
		fmt.Fprintf(&report, "%s %v\n%s\n", filepath.Base(folder), count, strings.Join(open, "\n"))
	}
	wantFile(t, filepath.Join("..", "testdata", "strangers", "openrosters.txt"), report.String())
}

// strangeRoster is a roster with the visit of each row.
type strangeRoster struct {
	visits map[string]*Visit // by row and sheet
	asked  map[string]bool   // rows with a problem that may cost the score
	wide   bool              // questions about columns or sheets
	err    error
}

func openStrangeRoster(path string) *strangeRoster {
	s := &strangeRoster{visits: map[string]*Visit{}, asked: map[string]bool{}}
	r, err := Open(path, ReadOptions{Today: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		s.err = err
		return s
	}
	visits := people.Visits(r)
	for i := range visits {
		for _, line := range visits[i].Lines() {
			s.visits[rowKey(line.Row.Sheet, strconv.Itoa(line.Row.Number), path)] = &visits[i]
		}
		for _, p := range visits[i].Row.Problems {
			if p.Blocking {
				s.asked[rowKey(p.Sheet, strings.TrimLeft(p.Cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"), path)] = true
			}
		}
	}
	s.wide = len(r.Questions) > 0 || slices.ContainsFunc(r.Problems, func(p roster.Problem) bool { return p.Blocking })
	return s
}

// rowKey identifies a row; a text file has one sheet, named differently by each.
func rowKey(sheet, row, path string) string {
	if strings.HasSuffix(path, ".csv") {
		sheet = ""
	}
	return row + "!" + sheet
}

// judge compares a row with what its writer says of it.
func (s *strangeRoster) judge(truth map[string]string) (verdict, got string) {
	if s.err != nil {
		return map[bool]string{true: "asked", false: "right"}[truth["kind"] == "score"], "no people found"
	}
	key := rowKey(truth["sheet"], truth["row"], truth["file"])
	v := s.visits[key]
	var score *scoring.Score
	scored := false
	if v != nil {
		score = v.Score(&scoring.Options{})
		scored = score.Best() != nil || len(score.Norms) > 0
	}
	switch {
	case truth["kind"] == "notperson" && v == nil, truth["kind"] != "score" && truth["kind"] != "notperson" && !scored:
		return "right", ""
	case truth["kind"] != "score" && !scored:
		return "extra", ""
	case truth["kind"] != "score":
		return "wrong", "is scored"
	case v == nil:
		return map[bool]string{true: "asked", false: "missed"}[s.wide], "no such person"
	}
	why := differs(&v.Row.Entry, truth)
	switch {
	case why == "" && (scored || len(score.Refused) > 0): // a refusal says what a score needs
		return "right", ""
	case scored:
		return "wrong", why
	case s.wide || s.asked[key]:
		return "asked", why
	}
	return "missed", why
}

// differs returns in what an entry is not what the truth says of the row.
func differs(e *scoring.Entry, truth map[string]string) string {
	i := slices.IndexFunc(e.Trials, func(tr scoring.Trial) bool { return alikeTests(tr.Test.ID, truth["test"]) })
	if i < 0 {
		return "other test"
	}
	trial := &e.Trials[i]
	for _, c := range []struct {
		column string
		of     *scoring.Values
		inputs []scoring.Input
		within float64
	}{
		{"time_s", &trial.Values, []scoring.Input{scoring.Time}, 0.6},
		{"distance_m", &trial.Values, []scoring.Input{scoring.Distance}, 6},
		{"level", &trial.Values, []scoring.Input{scoring.ShuttleLevel}, 0},
		{"shuttle", &trial.Values, []scoring.Input{scoring.ShuttleInLevel}, 0},
		{"laps", &trial.Values, []scoring.Input{scoring.ShuttleLaps}, 0},
		{"pulse", &trial.Values, []scoring.Input{scoring.ExerciseHR, scoring.RecoveryHR}, 0.6},
		{"mass_kg", &e.Values, []scoring.Input{scoring.BodyMass}, 0.5},
		{"stature_cm", &e.Values, []scoring.Input{scoring.Stature}, 1.1},
		{"rhr", &e.Values, []scoring.Input{scoring.RestingHR}, 0.6},
		{"age", &e.Values, []scoring.Input{scoring.Age}, 1},
	} {
		want, err := strconv.ParseFloat(truth[c.column], 64)
		if err != nil {
			continue
		}
		for _, in := range c.inputs {
			if q, ok := c.of.Get(in); ok && math.Abs(q.Amount-want) > c.within {
				return fmt.Sprintf("%s %v instead of %v", in, q.Amount, want)
			}
		}
	}
	if sex := map[string]scoring.Sex{"F": scoring.Female, "M": scoring.Male}[truth["sex"]]; e.Sex() != sex && e.Sex() != scoring.SexUnspecified {
		return "other sex"
	}
	if born, err := time.Parse(time.DateOnly, truth["birth"]); err == nil && !e.Born.IsZero() && !e.Born.Equal(born) {
		return "born " + e.Born.Format(time.DateOnly) + " instead of " + truth["birth"]
	}
	return ""
}

// alikeTests reports whether a test is the one that a writer names. A run of 2400 m is
// both a race and the 1.5-mile run.
func alikeTests(id, want string) bool {
	return id == want || slices.Contains([]string{"race run-1.5-mile", "run-1.5-mile race"}, id+" "+want)
}
