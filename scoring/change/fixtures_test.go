package change

import (
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/scoring/audit"
	"tenback/scoring/fieldtests"
)

// on is a test day.
func on(t testing.TB, text string) time.Time {
	t.Helper()
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		t.Fatal(err)
	}
	return day
}

// entry is one person on one day, as "sex=F;age=45;run-1.5-mile:time=12:45". What
// belongs to a test has its ID in front.
func entry(t testing.TB, text string) *scoring.Entry {
	t.Helper()
	e := &scoring.Entry{}
	trials := map[string]int{}
	for part := range strings.SplitSeq(text, ";") {
		if part == "" {
			continue
		}
		name, value, _ := strings.Cut(part, "=")
		test, input, ofTest := strings.Cut(name, ":")
		if !ofTest {
			input = name
		}
		in, ok := scoring.InputByID(input)
		if !ok {
			t.Fatalf("no input %q", input)
		}
		q, err := audit.ParseQuantity(in, value)
		if err != nil {
			t.Fatal(err)
		}
		if !ofTest {
			e.Set(in, q, "")
			continue
		}
		at, begun := trials[test]
		if !begun {
			found, ok := fieldtests.ByID(test)
			if !ok {
				t.Fatalf("no test %q", test)
			}
			at = len(e.Trials)
			trials[test] = at
			e.Trials = append(e.Trials, scoring.Trial{Test: found})
		}
		e.Trials[at].Set(in, q, "")
	}
	return e
}

// dated scores a person on a day.
func dated(t testing.TB, day, text string) Dated {
	t.Helper()
	s := scoring.Assess(entry(t, text))
	return Dated{on(t, day), &s}
}

func equation(t testing.TB, id string) *scoring.Equation {
	t.Helper()
	_, e, ok := fieldtests.Equation(id)
	if !ok {
		t.Fatalf("no equation %q", id)
	}
	return e
}
