package scoring

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"tenback/scoring/reference"
	"tenback/testdata/evidence"
)

// slack keeps a difference of exactly half a digit inside the tolerance.
const slack = 1e-9

func TestWorkedExamples(t *testing.T) {
	rows, err := evidence.Equations()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, row := range rows {
		t.Run(row.ID, func(t *testing.T) {
			if seen[row.ID] {
				t.Fatal("this id was used before")
			}
			seen[row.ID] = true
			if row.Tolerance <= 0 {
				t.Fatalf("tolerance %g", row.Tolerance)
			}
			ours, unit, err := workOut(t, row)
			if err != nil {
				t.Fatal(err)
			}
			if unit.String() != row.Unit {
				t.Fatalf("ours is in %s, the evidence in %s", unit, row.Unit)
			}
			off := math.Abs(ours - row.Expected)
			switch {
			case row.Status == evidence.Rejected && off <= row.Tolerance:
				t.Errorf("%.4f equals a value known to be wrong (%s: %s)", ours, row.Source, row.Note)
			case row.Status != evidence.Rejected && off > row.Tolerance+slack:
				t.Errorf("%.4f, want %g within %g (%s)", ours, row.Expected, row.Tolerance, row.Source)
			}
		})
	}
}

// workOut computes what a row of the evidence gives: the whole equation, as
// Assess runs it, or one step of it from just the inputs that enter.
func workOut(t *testing.T, row evidence.Row) (x float64, unit Unit, err error) {
	t.Helper()
	test, eq := equationOf(t, row.Equation)
	e := Entry{Trials: []Trial{{Test: test}}}
	for _, in := range row.Inputs {
		put(t, &e, &e.Trials[0], in.Name+"="+in.Text)
	}
	if row.Gives == "VO2max" {
		est, refusal := estimate(&e, &e.Trials[0], eq)
		if refusal != nil {
			return 0, NoUnit, fmt.Errorf("refused: %s", refusal.Why)
		}
		return Q(float64(est.VO2), MLPerKgMin).In(MLPerKgMin), MLPerKgMin, nil
	}
	c := Case{entry: &e, trial: &e.Trials[0], equation: eq}
	for i, v := range eq.Vars {
		c.slots[i] = math.NaN()
		if q, ok := c.Get(v.Input); ok {
			c.slots[i] = q.In(v.Unit)
		}
	}
	for i, s := range eq.Steps {
		slot := len(eq.Vars) + i
		if s.Lookup == nil {
			c.slots[slot] = eq.stepForms[i].eval(c.slots[:])
		} else if found, refusal := s.Lookup(&c); refusal == nil {
			c.slots[slot] = found.Value
		} else {
			c.slots[slot] = math.NaN()
		}
		if s.Symbol == row.Gives {
			if math.IsNaN(c.slots[slot]) {
				return 0, NoUnit, fmt.Errorf("an input of %s is missing", s.Symbol)
			}
			return c.slots[slot], s.Unit, nil
		}
	}
	return 0, NoUnit, fmt.Errorf("%s has no step %s", row.Equation, row.Gives)
}

func TestTablePoints(t *testing.T) {
	points, err := evidence.TablePoints()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, p := range points {
		t.Run(p.ID, func(t *testing.T) {
			if seen[p.ID] {
				t.Fatal("this id was used before")
			}
			seen[p.ID] = true
			look, ok := lookups[p.Table]
			if !ok {
				t.Fatalf("no look-up for table %q", p.Table)
			}
			unit, err := unitBySymbol(p.Unit)
			if err != nil {
				t.Fatal(err)
			}
			if got := look(p, Q(p.Value, unit)); got != p.Expected {
				t.Errorf("%s %d at %g %s: %s, want %s (%s)", p.Sex, p.Age, p.Value, p.Unit, got, p.Expected, p.Source)
			}
		})
	}
}

var sexes = map[string]Sex{"F": Female, "M": Male, "any": SexUnspecified}

// lookups reads a value off each table, in the words of the evidence.
var lookups = map[string]func(p evidence.TablePoint, q Quantity) string{
	"adult-groups":     groupWords,
	"almeida-2019":     groupWords,
	"nhanes-2001-2004": groupWords,
	"friend-percentiles": func(p evidence.TablePoint, q Quantity) string {
		edition, mode, _ := strings.Cut(p.Part, " ")
		at, ok := reference.FRIENDPercentile(reference.FRIENDEdition{Edition: edition, Mode: mode}, sexes[p.Sex], p.Age, VO2(q.In(MLPerKgMin)))
		return percentileWords(at, ok)
	},
	"youth-health-lines": func(p evidence.TablePoint, q Quantity) string {
		table, known := reference.YouthTableByID(p.Part)
		if !known {
			return "no such table"
		}
		line, ok := table.Line(sexes[p.Sex], p.Age)
		switch {
		case !ok:
			return "no row"
		case VO2(q.In(MLPerKgMin)) >= line:
			return "at or above"
		}
		return "below"
	},
	"resting-rate": func(p evidence.TablePoint, q Quantity) string {
		return percentileWords(reference.RestingPercentile(sexes[p.Sex], p.Age, q.In(BeatsPerMinute)))
	},
	"resting-clinical": func(p evidence.TablePoint, q Quantity) string {
		e := Entry{}
		e.Set(Age, Q(float64(p.Age), Years), "")
		e.Set(RestingHR, q, "")
		switch s := Assess(&e); {
		case hasFlag(s.Flags, FlagRestingHigh):
			return "high"
		case hasFlag(s.Flags, FlagRestingLow):
			return "low"
		}
		return "none"
	},
}

// groupWords names the group that an adult table puts a value in.
func groupWords(p evidence.TablePoint, q Quantity) string {
	table, known := reference.AdultTable(p.Table)
	if !known {
		return "no such table"
	}
	row, ok := table.Row(sexes[p.Sex], p.Age)
	if !ok {
		return "no row"
	}
	return table.Names[row.Group(VO2(q.In(MLPerKgMin)))]
}

func percentileWords(p reference.Percentile, ok bool) string {
	switch {
	case !ok:
		return "no row"
	case p.Below:
		return "below P" + strconv.FormatFloat(p.At, 'f', -1, 64)
	case p.Above:
		return "above P" + strconv.FormatFloat(p.At, 'f', -1, 64)
	}
	return "P" + trimNumber(p.At, 2)
}

// Every equation stands on at least one worked example of its result that it
// must hit, not only on values it must miss.
func TestEveryEquationHasAWorkedExample(t *testing.T) {
	rows, err := evidence.Equations()
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]bool{}
	for _, row := range rows {
		if row.Gives == "VO2max" && row.Status != evidence.Rejected {
			held[row.Equation] = true
		}
	}
	for _, test := range Tests() {
		for _, e := range test.Equations {
			if !held[e.ID] {
				t.Errorf("%s: no worked example in testdata/evidence/equations.csv", e.ID)
			}
		}
	}
}

// Every table that a score is read against is checked at one point at least.
func TestEveryTableHasPoints(t *testing.T) {
	points, err := evidence.TablePoints()
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]bool{}
	for _, p := range points {
		held[p.Table] = true
	}
	for _, table := range reference.Tables() {
		if !held[table.ID] && !table.ShownOnly {
			t.Errorf("%s: no point in testdata/evidence/tables.csv", table.ID)
		}
	}
}

// Whole-number charts in common practice (no source) ask for the openings
// below. They round the published METs upwards: ours lie under them, by no
// more than 1.2 mL/kg/min.
func TestCommonPracticeCharts(t *testing.T) {
	const most VO2 = 1.2
	for _, c := range []struct {
		sex   Sex
		years int
		group reference.Group
		chart VO2
	}{
		{Female, 45, reference.AboveAverage, 32},
		{Female, 45, reference.High, 37}, // above average is 32 to 36
		{Female, 45, reference.Elite, 47},
		{Female, 71, reference.BelowAverage, 18},
		{Female, 71, reference.AboveAverage, 22},
		{Female, 71, reference.High, 25}, // above average is 22 to 24
		{Female, 71, reference.Elite, 36},
		{Female, 61, reference.Elite, 40}, // one decade younger than 71
		{Female, 51, reference.Elite, 46}, // two decades younger
		{Male, 55, reference.AboveAverage, 36},
		{Male, 55, reference.High, 41}, // above average is 36 to 40; at 40 ours says high
		{Male, 55, reference.Elite, 50},
	} {
		row, ok := reference.GroupRowFor(c.sex, c.years)
		if !ok {
			t.Fatalf("no row for %s %d", c.sex, c.years)
		}
		if opens := row.Opens(c.group); opens > c.chart || opens < c.chart-most {
			t.Errorf("%s %d: %s opens at %.2f, the chart says %.0f", c.sex, c.years, c.group, float64(opens), float64(c.chart))
		}
	}
}

// The same readings through Assess, with the decades beside them.
func TestCommonPracticeWoman71(t *testing.T) {
	s := Assess(entryOf(t, "measured", "sex=F;age=71;measured-vo2max=23"))
	decades := s.Adults[0].Decades
	if len(decades) != 3 {
		t.Fatalf("%d decades, want 3", len(decades))
	}
	for i, chart := range []VO2{36, 40, 46} {
		top := decades[i].Goals[len(decades[i].Goals)-1]
		if top.Group != reference.Elite || top.VO2 > chart || top.VO2 < chart-1.2 {
			t.Errorf("%d decades younger: %s opens at %.2f, the chart says %.0f", i, top.Group, float64(top.VO2), float64(chart))
		}
	}
	if got := s.Adults[0].Group; got != reference.AboveAverage {
		t.Errorf("23 is %s, want above average", got)
	}
}
