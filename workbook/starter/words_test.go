package starter

import (
	"regexp"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/sheetwords"
)

// TestEveryWordIsWritten holds the words and the sheets together: each block that
// is meant for a workbook of ours is written into one.
func TestEveryWordIsWritten(t *testing.T) {
	w := wordsOf(nil)
	said := map[string]bool{}
	w.Heard = func(key string) { said[key] = true }
	for _, setting := range workbook.Settings() {
		s := &starter{sheetWords: w, f: excelize.NewFile(), people: w.Say("starter.sheet.people", nil), guide: w.Say("starter.sheet.guide", nil)}
		all := s.columns(setting)
		for i := range all {
			if _, err := s.validation(&all[i], "A"); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.writeGuide(setting, all); err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range []group.Summary{groupSummary(), {Smallest: 5}} {
		f := excelize.NewFile()
		g, err := newGroupSheet(f, "Sheet1", w)
		if err != nil {
			t.Fatal(err)
		}
		g.adults = reference.AdultGroups
		g.write(s)
		if g.failed != nil {
			t.Fatal(g.failed)
		}
	}
	if w.Failure() != nil {
		t.Fatal(w.Failure())
	}
	ours := regexp.MustCompile(`^(sheet\.summary|starter|guide|choice|setting)\b`)
	// Headers come from the words of the program, the document's name from
	// WriteStarter, cautions from tests that have some, and the last are headers that
	// the reader knows. What is said of a change is not looked at here.
	elsewhere := regexp.MustCompile(`^(starter\.document|guide\.test\.caution|starter\.(test|result|audience|language)\.header)$` +
		`|^sheet\.summary\.(change|column|left)\b`)
	for _, key := range w.Set.Keys() {
		if ours.MatchString(key) && !elsewhere.MatchString(key) && !said[key] {
			t.Errorf("nothing writes %q", key)
		}
	}
}

// TestChoicesAreRead: what the lists and the guide of each language offer is read
// as what it is meant for.
func TestChoicesAreRead(t *testing.T) {
	read := map[string]struct {
		by   func(cell.Raw) (float64, *cell.Doubt)
		want float64
	}{
		"choice.yes": {cell.ParseYesNo, scoring.Yes}, "choice.no": {cell.ParseYesNo, scoring.No},
		"choice.all-out": {cell.ParseEffort, scoring.EffortAllOut}, "choice.steady": {cell.ParseEffort, scoring.EffortSteady},
		"choice.walk": {cell.ParseGait, scoring.GaitWalk}, "choice.run": {cell.ParseGait, scoring.GaitRun},
	}
	for key, r := range read {
		for _, word := range sheetwords.Every(key) {
			if got, doubt := r.by(cell.Raw{Kind: cell.Text, Text: word}); doubt != nil || got != r.want {
				t.Errorf("%s, %q: read as %v, %v", key, word, got, doubt)
			}
		}
	}
}
