package result

import (
	"testing"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/people"
	"tenback/workbook/roster"
)

// TestHasPage: everybody who was tested gets a page, with or without a number.
func TestHasPage(t *testing.T) {
	walk, _ := fieldtests.ByID("walk-1-mile")
	tested := func(r *roster.Row) { r.Entry.Trials = []scoring.Trial{{Test: walk}} }
	for _, c := range []struct {
		name   string
		change func(r *roster.Row)
		want   bool
	}{
		{"not tested", func(*roster.Row) {}, false},
		{"not tested, with a date that cannot be read", func(r *roster.Row) {
			r.Problems = []roster.Problem{{Sheet: "Harbour", Cell: "C2", Read: "31.13.1980", Blocking: true}}
		}, false},
		{"tested, and something is missing", tested, true},
		{"a result that cannot be read", func(r *roster.Row) {
			r.ResultUnread = true
			r.Problems = []roster.Problem{{Sheet: "Harbour", Cell: "F2", Read: "11:3", Blocking: true}}
		}, true},
		{"a column waits for an answer", func(r *roster.Row) {
			r.ResultUnread = true
			r.Problems = []roster.Problem{{Sheet: "Harbour", Cell: "F2", Blocking: true, Waits: true}}
		}, false},
	} {
		row := &roster.Row{Sheet: "Harbour", Number: 2, Person: roster.Person{Name: "Ann", NameCell: "A2"}}
		c.change(row)
		o := New(&people.Visit{Row: row}, &scoring.Options{}, nil)
		if got := o.HasPage(); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestPrivateProblems: no page quotes an answer or a note about health, or a doubt.
func TestPrivateProblems(t *testing.T) {
	row := &roster.Row{Sheet: "Harbour"}
	row.Entry.Set(scoring.HeartRateDrug, scoring.Q(scoring.Unclear, scoring.NoUnit), "H2")
	row.Entry.Set(scoring.BodyMass, scoring.Q(70, scoring.Kilograms), "E2")
	row.Entry.Notes = []scoring.DangerNote{{Cell: "K2", Text: "felt dizzy", Kind: scoring.Symptoms}}
	row.Entry.Doubts = []scoring.Doubt{{Inputs: []scoring.Input{scoring.Stature}, Cell: "F2"}}
	o := Outcome{Visit: people.Visit{Row: row}}
	for cell, want := range map[string]bool{"H2": true, "K2": true, "F2": true, "E2": false, "": false} {
		if got := o.IsPrivate(roster.Problem{Sheet: "Harbour", Cell: cell}); got != want {
			t.Errorf("%q: %v", cell, got)
		}
	}
}
