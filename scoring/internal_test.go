package scoring

import (
	"math"
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

func TestBeyond(t *testing.T) {
	ages := reference.Ages{Min: 30, Max: 39}
	for _, c := range []struct{ age, want float64 }{
		{30, 0}, {39.99, 0}, {29.5, 0.5}, {20, 10}, {40, 1}, {49, 10},
	} {
		if got := beyond(ages, c.age); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("age %g is %g years beyond, want %g", c.age, got, c.want)
		}
	}
}
