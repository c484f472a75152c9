package scoring

import (
	"testing"

	"tenback/scoring/reference"
)

func TestMostTelling(t *testing.T) {
	wrong := &Refusal{Why: Verbatim("wrong"), Fix: Verbatim("check")}
	missing := &Refusal{Why: Verbatim("missing"), Fix: Verbatim("add"), Missing: true}
	otherAge := &Refusal{Why: Verbatim("age"), Fix: Verbatim("other test"), NotForAge: true}
	otherSex := &Refusal{Why: Verbatim("sex")}
	for _, c := range []struct {
		refusals []*Refusal
		want     string
	}{
		{[]*Refusal{otherSex, otherAge, missing, wrong}, "wrong"},
		{[]*Refusal{wrong, missing, otherAge, otherSex}, "wrong"},
		{[]*Refusal{otherSex, otherAge, missing}, "missing"},
		{[]*Refusal{otherSex, otherAge}, "age"},
		{[]*Refusal{otherSex}, "sex"},
	} {
		if got := mostTelling(c.refusals); got.Why.String() != c.want {
			t.Errorf("%v: %s, want %s", c.refusals, got.Why, c.want)
		}
	}
}

func TestOtherAges(t *testing.T) {
	of := func(ages ...reference.Ages) string {
		var refusals []*Refusal
		for _, a := range ages {
			refusals = append(refusals, &Refusal{NotForAge: true, ages: a})
		}
		return otherAges(refusals).String()
	}
	for _, c := range []struct{ got, want string }{
		{of(reference.Ages{Min: 20, Max: 59}), "use a test for that age; this one is for 20–59"},
		{of(reference.Ages{Min: 62, Max: 80}, reference.Ages{Min: 20, Max: 59}, reference.Ages{Min: 60, Max: 61}), "use a test for that age; this one is for 20–80"},
		{of(reference.Ages{Min: 30, Max: 69}, reference.Ages{Min: 18, Max: 29}, reference.Ages{Min: 10, Max: 13}), "use a test for that age; this one is for 10–13 and 18–69"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
