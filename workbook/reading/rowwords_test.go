package reading

import (
	"testing"

	"tenback/workbook/heading"
)

func TestSummaryWordsAreFound(t *testing.T) {
	for _, s := range []string{"Average", "TOTAL:", "Ø average", "médiane", "Średnia", "平均", "Mittelwert", "a.v.e.r.a.g.e", "Std. dev.", " sum", "Grand total", "rata-rata"} {
		want := summaryWords[heading.Key(s)]
		if got := isSummary(s); got != want {
			t.Errorf("%q: %v, want %v", s, got, want)
		}
	}
	for w := range summaryWords {
		if !isSummary(w) {
			t.Errorf("%q is not found", w)
		}
	}
	for _, s := range []string{"", "n", "Ava Rage", "Sumner", "Totally Else"} {
		if isSummary(s) {
			t.Errorf("%q counts as a summary", s)
		}
	}
}
