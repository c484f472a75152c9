package workbook

import (
	"fmt"
	"math"
	"slices"
	"time"

	"tenback/scoring"
)

// demoColumn is a column with the way in which its cells are filled.
type demoColumn struct {
	header string
	width  float64
	value  func(*demoRow) typed
}

// typed is what someone typed into a cell: the value as the spreadsheet keeps
// it, and the number format that came with it. A nil value is an empty cell.
type typed struct {
	value  any
	format string
}

// unless fills a column, but for the rows in which just that went wrong.
func unless(wrong messColumn, value func(*demoRow) any, format string) func(*demoRow) typed {
	return func(r *demoRow) typed {
		if r.mess.column == wrong {
			return r.mess.typed
		}
		return typed{value(r), format}
	}
}

func nameColumn(header string) demoColumn {
	return demoColumn{header, 27, unless(noColumn, func(r *demoRow) any { return r.name }, "")}
}

func numberColumn(header string) demoColumn {
	return demoColumn{header, 11, unless(noColumn, func(r *demoRow) any { return fmt.Sprintf("%04d", r.number) }, "@")}
}

func groupColumn(header string) demoColumn {
	return demoColumn{header, 15, unless(noColumn, func(r *demoRow) any { return r.group }, "")}
}

func sexColumn(header, female, male string) demoColumn {
	words := map[scoring.Sex]any{scoring.Female: female, scoring.Male: male}
	return demoColumn{header, 8, unless(noColumn, func(r *demoRow) any { return words[r.sex] }, "")}
}

func bornColumn(header string) demoColumn {
	return demoColumn{header, 13, unless(messBirth, func(r *demoRow) any { return r.entry.Born }, formatDate)}
}

func testedColumn(header string) demoColumn {
	return demoColumn{header, 12, unless(noColumn, func(r *demoRow) any { return r.entry.Tested }, formatDate)}
}

func massColumn(header string, unit scoring.Unit) demoColumn {
	return demoColumn{header, 14, unless(messMass, func(r *demoRow) any {
		q, _ := r.entry.Get(scoring.BodyMass)
		return math.Round(q.In(unit)*2) / 2
	}, "0.0")}
}

// paceColumn holds the pace that a squad runs before each test.
func paceColumn(header string) demoColumn {
	return demoColumn{header, 12, unless(noColumn, func(r *demoRow) any {
		q, _ := r.entry.Get(scoring.PaceSpeed)
		return math.Round(q.In(scoring.MilesPerHour)*10) / 10
	}, "0.0")}
}

func inputColumn(header string, in scoring.Input, wrong messColumn) demoColumn {
	return demoColumn{header, 14, unless(wrong, func(r *demoRow) any {
		q, _ := r.entry.Get(in)
		return q.Amount
	}, "")}
}

// mailColumn holds invented addresses of a domain that nobody can own. One in
// ten people gave none.
func mailColumn(header, domain string) demoColumn {
	return demoColumn{header, 38, unless(noColumn, func(r *demoRow) any {
		if r.number%10 == 0 {
			return nil
		}
		return fmt.Sprintf("mail%d@%s", r.number, domain)
	}, "")}
}

// columns are the personal ones and those for the tests that were done.
func (s demoSheet) columns(rows []demoRow) []demoColumn {
	columns := append([]demoColumn(nil), s.personal...)
	if s.paired {
		columns = append(columns,
			demoColumn{"Test", 31, unless(noColumn, func(r *demoRow) any { return r.entry.Trials[0].Test.Name }, "")},
			demoColumn{"Result", 10, func(r *demoRow) typed {
				if r.mess.column == messResult {
					return r.mess.typed
				}
				return resultCell(&r.entry.Trials[0])
			}})
	}
	words := wordsOf(nil) // people in Quillhaven write English
	seen := map[string]bool{}
	for _, f := range words.fieldsOf(testsDone(rows)) {
		if s.paired { // one column serves all tests
			if f.result {
				continue
			}
			f = field{header: words.inputHeader(f.input), input: f.input}
		}
		if !seen[f.header] {
			seen[f.header] = true
			columns = append(columns, f.demoColumn(s))
		}
	}
	return append(columns, s.mail...)
}

// testsDone lists the tests done in these rows in the order of listings.
func testsDone(rows []demoRow) []*scoring.Test {
	done := map[*scoring.Test]bool{}
	for i := range rows {
		for _, t := range rows[i].entry.Trials {
			done[t.Test] = true
		}
	}
	var all []*scoring.Test
	for _, t := range scoring.Tests() {
		if done[t] {
			all = append(all, t)
		}
	}
	return all
}

// demoColumn fills a column from the trial that it belongs to, or from any
// trial that has the input.
func (f field) demoColumn(s demoSheet) demoColumn {
	return demoColumn{f.header, min(20, max(12, float64(len(f.header))*0.85)), func(r *demoRow) typed {
		for i := range r.entry.Trials {
			trial := &r.entry.Trials[i]
			switch {
			case f.test != nil && f.test != trial.Test:
			case f.result && i == 0 && r.mess.column == messResult:
				return r.mess.typed
			case f.result && f.input == scoring.Time && s.typesTimes:
				q, _ := trial.Get(f.input)
				return typedTime(q)
			case f.result:
				return resultCell(trial)
			case trial.Test.Results[0].Input == f.input || f.test == nil && !s.paired && hasOwn(trial.Test, f.input):
				// it stands in a column of the test's own
			case trial.Has(f.input):
				return inputCell(trial, f.input)
			}
		}
		return typed{}
	}}
}

// hasOwn tells whether an input of a test has a column of the test's own.
func hasOwn(t *scoring.Test, in scoring.Input) bool {
	return slices.ContainsFunc(t.Also, func(a scoring.Also) bool { return a.Input == in })
}

// typedTime is what a spreadsheet makes of minutes and seconds typed as 11:30:
// hours and minutes of a day.
func typedTime(q scoring.Quantity) typed {
	days := q.In(scoring.Seconds) / 60 / 24
	if days >= 1 {
		return typed{days, "[h]:mm:ss"}
	}
	return typed{days, "h:mm"}
}

// resultCell is a trial's result as people write it.
func resultCell(trial *scoring.Trial) typed {
	in := trial.Test.Results[0].Input
	q, ok := trial.Get(in)
	switch {
	case !ok:
		return typed{}
	case in == scoring.Time:
		return typed{scoring.Clock(time.Duration(q.Amount) * time.Second), "@"}
	case in == scoring.ShuttleLevel && trial.Test.ID == "shuttle-20-m":
		// They ran some shuttles of the next level.
		return typed{fmt.Sprintf("%.0f.%d", q.Amount+1, 1+int(q.Amount*5)%6), "@"}
	}
	return typed{math.Round(q.Amount*10) / 10, ""}
}

// inputCell is another input of a trial as people write it.
func inputCell(trial *scoring.Trial, in scoring.Input) typed {
	q, _ := trial.Get(in)
	switch in {
	case scoring.Effort:
		return typed{[...]string{scoring.EffortSteady: "steady", scoring.EffortAllOut: "all-out"}[int(q.Amount)], ""}
	case scoring.Gait:
		return typed{[...]string{scoring.GaitWalk: "walk", scoring.GaitRun: "run"}[int(q.Amount)], ""}
	}
	return typed{q.Amount, ""}
}
