package workbook

import (
	"regexp"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/workbook/cell"
	"tenback/workbook/sheetwords"
)

// TestEveryWordIsWritten holds the words and the sheets together: each block that
// is meant for workbooks is written into one.
func TestEveryWordIsWritten(t *testing.T) {
	w := wordsOf(nil)
	said := map[string]bool{}
	w.Heard = func(key string) { said[key] = true }
	columns := w.resultColumns()
	for _, o := range manyOutcomes(t) {
		for _, c := range columns {
			c.Value(o, o.Score(&scoring.Options{}))
		}
	}
	for _, setting := range Settings() {
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
	ours := regexp.MustCompile(`^(sheet|starter|guide|choice|setting|percentile)\b`)
	// Headers come from the words of the program, the document's name from
	// WriteStarter, cautions from tests that have some, and the last are headers that
	// the reader knows. What is said of a change is not looked at here.
	elsewhere := regexp.MustCompile(`^(sheet\..*\.header|starter\.document|guide\.test\.caution|starter\.(test|result|audience|language)\.header)$` +
		`|^sheet\.(since|pulse|verdict|summary\.(change|column|left))\b`)
	for _, key := range w.Set.Keys() {
		if ours.MatchString(key) && !elsewhere.MatchString(key) && !said[key] {
			t.Errorf("nothing writes %q", key)
		}
	}
}

// manyOutcomes are people who together have everything that a cell can say.
func manyOutcomes(t *testing.T) []*Outcome {
	all := []*Outcome{
		outcomeOf(t, run(t, scoring.Male, 55.5, 960)),
		outcomeOf(t, run(t, scoring.SexUnspecified, 55.5, 960)),
		outcomeOf(t, func(e *scoring.Entry) { person(e, scoring.Male, 40) }),
		outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.Female, 71)
			trial(t, e, "step-in-place-2-min", map[scoring.Input]float64{scoring.StepsInPlace: 58})
		}),
		outcomeOf(t, func(e *scoring.Entry) { person(e, scoring.Male, 40) }, Problem{Sheet: "People", Cell: "D2", What: scoring.Verbatim("it is odd"), Blocking: true}),
	}
	for _, value := range []float64{10, 70} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.SexUnspecified, 35)
			trial(t, e, "measured", map[scoring.Input]float64{scoring.MeasuredVO2: value})
		}))
	}
	for _, level := range []float64{3, 9} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.SexUnspecified, 13.5)
			trial(t, e, "shuttle-20-m", map[scoring.Input]float64{scoring.ShuttleLevel: level})
		}))
	}
	for _, rate := range []float64{35, 50, 65, 75, 90} {
		all = append(all, outcomeOf(t, func(e *scoring.Entry) {
			person(e, scoring.Female, 40)
			e.Set(scoring.RestingHR, scoring.Q(rate, scoring.BeatsPerMinute), "E2")
		}))
	}
	return all
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
