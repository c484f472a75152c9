package workbook

import (
	"fmt"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/people"
	"tenback/workbook/result"
)

// TestConsent holds that nothing is scored without a clear yes where consent is asked
// for, and everything where it is not.
func TestConsent(t *testing.T) {
	head := []any{"ID", "Name", "Sex", "Age", "1.5 mile run", "Consent"}
	someone := func(id, name string, consent any) []any { return []any{id, name, "F", 30, "13:30", consent} }
	for _, tc := range []struct {
		name   string
		sheets []sheetOf
		want   string // of each visit, y if it is scored
	}{
		{"no column", []sheetOf{{"P", [][]any{head[:5], someone("1", "Ada Lind", nil)[:5]}}}, "y"},
		{"yes, no, unclear, empty", []sheetOf{{"P", [][]any{head, someone("1", "Ada Lind", "yes"), someone("2", "Ben Ohm", "no"), someone("3", "Cy Rill", "perhaps"), someone("4", "Di Wold", nil)}}}, "ynnn"},
		{"only one sheet asks", []sheetOf{{"P", [][]any{head, someone("1", "Ada Lind", nil)}}, {"Q", [][]any{head[:5], someone("2", "Ben Ohm", nil)[:5]}}}, "ny"},
		{"one person on two sheets, and one asks", []sheetOf{{"P", [][]any{head, someone("1", "Ada Lind", nil)}}, {"Q", [][]any{{"ID", "20 m shuttle level"}, {"1", "7.4"}}}}, "n"},
		{"a list of who agreed", []sheetOf{{"P", [][]any{head[:5], someone("1", "Ada Lind", nil)[:5], someone("2", "Ben Ohm", nil)[:5]}}, {"Slips", [][]any{{"ID", "Consent"}, {"1", "yes"}}}}, "yn"},
	} {
		r, err := openBook(buildBook(t, nil, tc.sheets...), ReadOptions{})
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, v := range people.Visits(r) {
			o := result.New(&v, &scoring.Options{}, nil)
			switch {
			case !o.LeftOut():
				got += "y"
			case o.WhyLeftOut() == result.WithoutConsent && len(o.Score(&scoring.Options{}).Flags) == 0:
				got += "n"
			default:
				got += fmt.Sprint(o.WhyLeftOut(), " ", o.Problems())
			}
		}
		if got != tc.want {
			t.Errorf("%s: %s, want %s", tc.name, got, tc.want)
		}
	}
}

// Who is not scored for want of consent is still talked to first.
func TestTalkFirstWithoutConsent(t *testing.T) {
	r := readRows(t, ReadOptions{}, []any{"Name", "Sex", "Age", "1.5 mile run", "Symptoms", "Consent"}, []any{"Ada Lind", "F", 30, "13:30", "yes", "no"})
	visits := people.Visits(r)
	o := result.New(&visits[0], &scoring.Options{}, nil)
	if len(o.TalkFirst) != 1 || o.TalkFirst[0].Input != scoring.Symptoms || !strings.HasPrefix(o.TalkFirst[0].Cell, "E") {
		t.Errorf("%+v", o.TalkFirst)
	}
}
