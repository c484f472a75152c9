package scoring_test

import (
	"math"
	"math/rand/v2"
	"testing"

	. "tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// klineSEE is the standard error printed for the one-mile walk (kline1987),
// typed here a second time: the people below are drawn with it, whatever the
// program declares.
const klineSEE = 5.0

// drawn is one synthetic walker with the true uptake that the paper's error
// leaves possible.
type drawn struct {
	entry Entry
	truth VO2
}

// draw makes people of 30 to 69, the ages of the study, whose true uptake lies
// around the equation's value with the paper's error.
func draw(n int) []drawn {
	random := rand.New(rand.NewPCG(1, 2))
	test, _ := fieldtests.ByID("walk-1-mile")
	people := make([]drawn, n)
	for i := range people {
		e := Entry{}
		sex := Female
		if random.IntN(2) == 1 {
			sex = Male
		}
		e.SetSex(sex, "")
		e.Set(Age, Q(30+39.9*random.Float64(), Years), "")
		e.Set(BodyMass, Q(55+40*random.Float64(), Kilograms), "")
		trial := Trial{Test: test}
		trial.Set(Time, Q(11+6*random.Float64(), Minutes), "")
		trial.Set(ExerciseHR, Q(110+50*random.Float64(), BeatsPerMinute), "")
		e.Trials = []Trial{trial}
		people[i].entry = e
		s := Assess(&people[i].entry)
		people[i].truth = s.Best().VO2 + VO2(klineSEE*random.NormFloat64())
	}
	return people
}

// worst scores everybody and gives the largest distance between how often
// something stated came true and how often it was to be expected, in standard
// errors of that count.
func worst(people []drawn) float64 {
	var stated, variance, came [5 + 2 + 1]float64 // groups, two ranges, goals
	count := func(k int, p float64, happened bool) {
		stated[k] += p
		variance[k] += p * (1 - p)
		if happened {
			came[k]++
		}
	}
	for i := range people {
		s := Assess(&people[i].entry)
		best, truth := s.Best(), people[i].truth
		st := s.Adults[0]
		row, _ := st.Table.Row(st.Sex, st.Decades()[0].Ages.Min)
		for g, p := range st.Chances {
			count(g, p, row.Group(truth) == reference.Group(g))
		}
		low, high := best.Likely()
		count(5, 0.6827, truth >= low && truth <= high)
		low, high = best.Range90()
		count(6, 0.90, truth >= low && truth <= high)
		goal := st.Decades()[len(st.Decades())-1].Goals[1]
		younger, _ := st.Table.Row(st.Sex, st.Decades()[len(st.Decades())-1].Ages.Min)
		count(7, goal.Chance, younger.Group(truth) >= goal.Group)
	}
	most := 0.0
	for k := range stated {
		most = max(most, math.Abs(came[k]-stated[k])/math.Sqrt(variance[k]))
	}
	return most
}

// Stated chances come true: the groups, the likely range, the 90 % range and
// the targets, on 100,000 people drawn from the model. Halving the declared
// error must be noticed.
func TestStatedChancesComeTrue(t *testing.T) {
	people := draw(100_000)
	if z := worst(people); z > 4 {
		t.Errorf("stated chances are off by %.1f standard errors", z)
	}
	_, kline, _ := fieldtests.Equation("walk1-kline1987")
	declared := kline.Error.SEE
	defer func() { kline.Error.SEE = declared }()
	kline.Error.SEE = declared / 2
	if z := worst(people); z < 20 {
		t.Errorf("with half the error the chances are off by only %.1f standard errors: the check is blind", z)
	}
}

func TestChancesSumToOne(t *testing.T) {
	for _, d := range draw(200) {
		for _, st := range Assess(&d.entry).Adults {
			sum := 0.0
			for _, p := range st.Chances {
				sum += p
			}
			if math.Abs(sum-1) > 1e-12 {
				t.Errorf("the chances %v sum to %v", st.Chances, sum)
			}
		}
	}
}

func TestErrorInLitresForPeople(t *testing.T) {
	e := ErrorOfEstimate{LPerMin: 0.355}
	if got := e.String(); got != "±0.355 L/min" {
		t.Errorf("%q", got)
	}
	if got := e.At(40, 71); !near(got, 5, 1e-9) {
		t.Errorf("0.355 L/min in 71 kg is %.4f mL/kg/min", float64(got))
	}
}
