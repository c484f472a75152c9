package scoring_test

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	. "tenback/scoring"

	"tenback/scoring/audit"
	"tenback/scoring/fieldtests"
)

// The tests write people as they would be written on paper:
//
//	entryOf(t, "run-1.5-mile", "sex=F;age=45;time=12:45;body-mass=130 lb")
//
// Names are the IDs of the inputs. A number without a unit is in the input's
// own unit.

// randomOf is a random stream of a case's own, so that a new test moves no other.
func randomOf(name string) *rand.Rand {
	sum := fnv.New64a()
	sum.Write([]byte(name))
	return rand.New(rand.NewPCG(sum.Sum64(), 0))
}

// testOf finds a declared field test.
func testOf(t testing.TB, id string) *Test {
	t.Helper()
	test, ok := fieldtests.ByID(id)
	if !ok {
		t.Fatalf("no field test %q", id)
	}
	return test
}

// equationOf finds a declared equation and the test it belongs to.
func equationOf(t testing.TB, id string) (*Test, *Equation) {
	t.Helper()
	if test, e, ok := fieldtests.Equation(id); ok {
		return test, e
	}
	t.Fatalf("no equation %q", id)
	return nil, nil
}

// entryOf is one person with one trial of the test.
func entryOf(t testing.TB, testID, text string) *Entry {
	t.Helper()
	e := &Entry{}
	addTrial(t, e, testID, text)
	return e
}

// personOf is a person who did no test.
func personOf(t testing.TB, text string) *Entry {
	t.Helper()
	e := &Entry{}
	put(t, e, nil, text)
	return e
}

// addTrial adds a trial of the test, and to the person what is the person's.
func addTrial(t testing.TB, e *Entry, testID, text string) {
	t.Helper()
	trial := Trial{Test: testOf(t, testID)}
	put(t, e, &trial, text)
	e.Trials = append(e.Trials, trial)
}

// put stores "name=value;name=value", each at a cell named after it.
func put(t testing.TB, e *Entry, trial *Trial, text string) {
	t.Helper()
	for part := range strings.SplitSeq(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		if err := audit.Put(e, trial, name, value, "cell of "+name); err != nil {
			t.Fatal(err)
		}
	}
}

// only is the single estimate of an entry, from the equation named.
func only(t testing.TB, s Score, equation string) *Estimate {
	t.Helper()
	if len(s.Estimates) != 1 || len(s.Refused) != 0 {
		t.Fatalf("%d estimates %v and %d refusals %+v, want one estimate", len(s.Estimates), equationIDs(s), len(s.Refused), s.Refused)
	}
	if got := s.Best().Equation.ID; got != equation {
		t.Fatalf("equation %s, want %s", got, equation)
	}
	return s.Best()
}

// refused is the single refusal of an entry.
func refused(t testing.TB, s Score) Refusal {
	t.Helper()
	if len(s.Estimates) != 0 || len(s.Refused) != 1 {
		t.Fatalf("%d estimates %v and %d refusals, want one refusal", len(s.Estimates), equationIDs(s), len(s.Refused))
	}
	return s.Refused[0]
}

func equationIDs(s Score) []string {
	var ids []string
	for i := range s.Estimates {
		ids = append(ids, s.Estimates[i].Equation.ID)
	}
	return ids
}

func flagIDs(flags []Flag) []string {
	var ids []string
	for _, f := range flags {
		ids = append(ids, f.Code.ID())
	}
	return ids
}

func hasFlag(flags []Flag, code FlagCode) bool {
	return slices.ContainsFunc(flags, func(f Flag) bool { return f.Code == code })
}

func near[T ~float64](got, want, tolerance T) bool {
	return math.Abs(float64(got-want)) <= float64(tolerance)
}
