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

// The wanted figures were computed from the file by an independent script.
func TestThe31Men(t *testing.T) {
	want := map[string][3]float64{ // bias, SD, RMSE
		"run15-acsm":          {2.493879, 2.870626, 3.767506},
		"run15-george1993":    {2.243563, 2.980222, 3.691719},
		"run15-larsen2002-hr": {7.445505, 3.715526, 8.294297},
		"run15-larsen2002":    {4.497409, 4.347996, 6.206602},
	}
	trials, err := Men()
	if err != nil {
		t.Fatal(err)
	}
	if len(trials) != len(want) {
		t.Errorf("%d equations, want %d", len(trials), len(want))
	}
	for _, got := range trials {
		w := want[got.Equation.ID]
		if got.N != 31 || math.Abs(got.Bias-w[0]) > 1e-6 || math.Abs(got.SD-w[1]) > 1e-6 || math.Abs(got.RMSE-w[2]) > 1e-6 {
			t.Errorf("%s: n %d, bias %.6f, SD %.6f, RMSE %.6f; want 31, %v", got.Equation.ID, got.N, got.Bias, got.SD, got.RMSE, w)
		}
	}
}
