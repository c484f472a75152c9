package starter

import (
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// TestTestColumns: the result comes first, as in a starter roster, and every
// header is read back as what it was made for.
func TestTestColumns(t *testing.T) {
	headers := func(id string) string {
		test, _ := fieldtests.ByID(id)
		var all []string
		for _, c := range TestColumns(test, nil) {
			all = append(all, c.Header)
		}
		return strings.Join(all, "; ")
	}
	for id, want := range map[string]string{
		"walk-1-mile":   "1 mile walk; 1 mile walk pulse; Body mass (kg)",
		"run-12-minute": "12 minute run distance (m)",
		"shuttle-20-m":  "20 m shuttle level; Shuttle start speed (km/h)",
		"step-stage": "Step test pulse; Step cycles a minute; Bench height (cm); Minutes of the stage; Heart rate of stage 2 (beats/min); " +
			"Step cycles a minute of stage 2; Heart rate of stage 3 (beats/min); Step cycles a minute of stage 3; " +
			"Heart rate of stage 4 (beats/min); Step cycles a minute of stage 4; Resting heart rate (beats/min)",
	} {
		if got := headers(id); got != want {
			t.Errorf("%s: %s\nwant %s", id, got, want)
		}
	}
	for _, test := range fieldtests.All() {
		if len(test.Results) == 0 {
			continue
		}
		for i, c := range TestColumns(test, nil) {
			if i == 0 && c.Input != test.Results[0].Input {
				t.Errorf("%s: the first column is %q", test.ID, c.Header)
			}
			h, ok := heading.Match(c.Header)
			if !ok || h.Input != c.Input {
				t.Errorf("%s: %q is read as %v", test.ID, c.Header, h.Meaning)
			}
		}
	}
}

func TestResultTests(t *testing.T) {
	test := func(id string) *scoring.Test {
		test, _ := fieldtests.ByID(id)
		return test
	}
	walk, step, race := test("walk-1-mile"), test("step-41-cm"), test("race")
	column := func(m roster.Meaning) roster.Column { return roster.Column{Meaning: m} }
	for _, tt := range []struct {
		name  string
		sheet roster.Sheet
		want  []*scoring.Test
	}{
		{"a result", roster.Sheet{Columns: []roster.Column{column(roster.Meaning{Role: roster.InputData, Input: scoring.Time, Test: walk})}}, []*scoring.Test{walk}},
		{"minutes and seconds", roster.Sheet{Columns: []roster.Column{column(roster.Meaning{Role: roster.Minutes, Input: scoring.Time, Test: race})}}, []*scoring.Test{race}},
		{"a pulse beside no result", roster.Sheet{Columns: []roster.Column{column(roster.Meaning{Role: roster.InputData, Input: scoring.ExerciseHR, Test: walk})}}, nil},
		{"a trial", roster.Sheet{Rows: []roster.Row{{Entry: scoring.Entry{Trials: []scoring.Trial{{Test: step}}}}}}, []*scoring.Test{step}},
		{"none", roster.Sheet{Columns: []roster.Column{column(roster.Meaning{Role: roster.Name})}}, nil},
	} {
		r := roster.Roster{Sheets: []*roster.Sheet{&tt.sheet}}
		if got := ResultTests(&r); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %d tests, want %d", tt.name, len(got), len(tt.want))
		}
	}
}
