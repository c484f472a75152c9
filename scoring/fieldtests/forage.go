package fieldtests

import (
	"cmp"
	"slices"

	"tenback/scoring"
	"tenback/scoring/order"
)

// ForAge returns the advice to use two tests that suit an age in place of one that
// does not: first those with the same kind of result, then those without a pulse.
// Without two such tests it returns the advice given.
func ForAge(refused *scoring.Refusal, years float64) scoring.Said {
	var suit []*scoring.Test
	for _, t := range All() {
		if t.Day != nil && t.Norm == nil && t != refused.Test && t.TakesAge(years) && (t.Youth || !scoring.IsYouth(years)) {
			suit = append(suit, t)
		}
	}
	if len(suit) < 2 {
		return refused.Fix
	}
	sameResult := func(t *scoring.Test) bool { return t.HasResult(refused.Test.Results[0].Input) }
	slices.SortStableFunc(suit, func(a, b *scoring.Test) int {
		return cmp.Or(order.TrueFirst(!a.ByPulse(), !b.ByPulse()), order.TrueFirst(sameResult(a), sameResult(b)))
	})
	return sayTestsForAge.With(suit[0], suit[1])
}

var sayTestsForAge = phrases.Phrase("tests-for-age", "use a test for that age, such as the {First} or the {Second}")
