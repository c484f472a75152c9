package workbook

import (
	"testing"

	"tenback/scoring"
)

// The first thing to act on is the reason.
func TestWhyLeftOut(t *testing.T) {
	nothing := func(*scoring.Entry) {}
	ran := func(e *scoring.Entry) {
		test, _ := scoring.TestByID("run-1.5-mile")
		e.Trials = []scoring.Trial{{Test: test}}
		e.Trials[0].Set(scoring.Time, scoring.Q(12, scoring.Minutes), "F2")
	}
	atName := Problem{Cell: "A2", Blocking: true}
	inCell := Problem{Cell: "F2", Blocking: true}
	other := Problem{Cell: "I2", Blocking: true, OtherTest: true}
	remark := Problem{Cell: "F2"}
	for _, c := range []struct {
		name     string
		set      func(*scoring.Entry)
		problems []Problem
		want     Reason
	}{
		{"scored", ran, []Problem{inCell}, 0},
		{"nothing typed", nothing, []Problem{atName, remark}, WithoutResult},
		{"nothing said", nothing, nil, WithoutResult},
		{"a cell", nothing, []Problem{atName, inCell}, ToMend},
		{"another test", nothing, []Problem{other}, NeedsOtherTest},
		{"a cell and another test", nothing, []Problem{other, inCell, other}, ToMend},
	} {
		o := outcomeOf(t, c.set, c.problems...)
		o.Row.Person.NameCell = "A2"
		if got := o.WhyLeftOut(); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}
