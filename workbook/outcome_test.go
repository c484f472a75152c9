package workbook

import (
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/people"
	"tenback/workbook/result"
	"tenback/workbook/roster"
)

// Where the day of the test is not known, who is a child even today is not read by
// an equation for adults.
func TestChildWithoutTestDay(t *testing.T) {
	today := time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)
	for _, tt := range []struct {
		name, born string
		today      time.Time
		scored     bool
	}{
		{"a child", "2015-03-04", today, false},
		{"the year alone", "2015", today, false},
		{"of age this year, or last", "2008", today, true},
		{"of age since yesterday", "2008-05-31", today, true},
		{"of age tomorrow", "2008-06-02", today, false},
		{"grown up", "1980-03-04", today, true},
		{"grown up, by a clock known to be wrong", "1980-03-04", time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC), true},
	} {
		opt := ReadOptions{Today: tt.today, Since: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
		one := readRows(t, opt, []any{"Name", "Sex", "Date of birth", "Body mass (kg)", "1.5 mile run"},
			[]any{"Ida Marsh", "F", tt.born, 42, "13:30"})
		for _, visit := range people.Visits(one) {
			o := result.New(&visit, &scoring.Options{}, nil)
			if o.LeftOut() == tt.scored {
				t.Errorf("%s: left out %v", tt.name, o.LeftOut())
			}
			if problems := o.Problems(); len(problems) != 1 || problems[0].Cell != "C2" || problems[0].What != roster.NoTestDay {
				t.Errorf("%s: %v", tt.name, problems)
			}
		}
	}
}
