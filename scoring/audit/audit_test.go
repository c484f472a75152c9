package audit

import (
	"math"
	"testing"

	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/testdata/evidence"
)

func TestWorkedExamples(t *testing.T) {
	examples, err := Examples()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, x := range examples {
		t.Run(x.ID, func(t *testing.T) {
			switch {
			case seen[x.ID]:
				t.Fatal("this id was used before")
			case x.Tolerance <= 0:
				t.Fatalf("tolerance %g", x.Tolerance)
			case x.Err != nil:
				t.Fatal(x.Err)
			case !x.Agrees() && x.Status == evidence.Rejected:
				t.Errorf("%.4f equals a value known to be wrong (%s: %s)", x.Ours, x.Source, x.Note)
			case !x.Agrees():
				t.Errorf("%.4f, want %g within %g (%s)", x.Ours, x.Expected, x.Tolerance, x.Source)
			}
			seen[x.ID] = true
		})
	}
}

func TestTablePoints(t *testing.T) {
	points, err := Points()
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
			if !p.Agrees() {
				t.Errorf("%s %d at %g %s: %s, want %s (%s)", p.Sex, p.Age, p.Value, p.Unit, p.Ours, p.Expected, p.Source)
			}
		})
	}
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
	for _, test := range fieldtests.All() {
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

// The wanted figures were computed from the files by independent scripts.
func TestCoverages(t *testing.T) {
	want := map[string]Coverage{
		"run15-acsm": {People: 31, Bias: 2.493879, SD: 2.870626, Likely: 0.742, Nine: 0.968},
		"cycle-hrr":  {People: 43, Bias: -3.342703, SD: 6.032067, Likely: 0.744, Nine: 0.907},
		"cycle-line": {People: 95, Bias: -2.319635, SD: 6.621969, Likely: 0.684, Nine: 0.863},
		// Normal, mean −3.2 and SD 5.6, within ±6.5 and ±1.645 × 6.5.
		"walk1-kline1987-young": {People: 40, Bias: -3.2, SD: 5.6, Likely: 0.68054, Nine: 0.90296},
	}
	all, err := Coverages()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		w, listed := want[c.Equation.ID]
		if !listed {
			continue
		}
		delete(want, c.Equation.ID)
		if c.People != w.People || math.Abs(c.Bias-w.Bias) > 1e-3 || math.Abs(c.SD-w.SD) > 1e-3 || math.Abs(c.Likely-w.Likely) > 1e-3 || math.Abs(c.Nine-w.Nine) > 1e-3 {
			t.Errorf("%s: %d people, bias %.4f, SD %.4f, inside %.3f and %.3f; want %+v", c.Equation.ID, c.People, c.Bias, c.SD, c.Likely, c.Nine, w)
		}
	}
	for id := range want {
		t.Errorf("%s is not in the list", id)
	}
}
