package workbook

import (
	"fmt"
	"math"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/people"
	"tenback/workbook/result"
)

// defectColumns are the columns of the roster with defects, a sound value of
// each, and how to make the n-th unsound one.
var defectColumns = []struct {
	header string
	sound  any
	broken func(n int) any
}{
	{"Date of birth", "1980-03-04", brokenDate},
	{"Test date", "2026-05-11", brokenDate},
	{"Body mass (kg)", 70.5, outside(scoring.BodyMass)},
	{"Resting heart rate", 64, outside(scoring.RestingHR)},
	{"1 mile walk", "14:30", brokenTime},
	{"1 mile walk pulse", 128, outside(scoring.ExerciseHR)},
}

// outside makes values that an input cannot have: too small, too large, less
// than nothing, or no number at all.
func outside(in scoring.Input) func(n int) any {
	info := in.Info()
	return func(n int) any {
		step := float64(n/5+1) / 10
		switch n % 5 {
		case 0:
			return math.Round(100*info.Min*0.4-float64(n)) / 100
		case 1:
			return info.Max + 100*step
		case 2:
			return -info.Min - step
		case 3:
			return fmt.Sprintf("about %d or so", n)
		}
		return fmt.Sprintf("%d;%d", n, n+1)
	}
}

func brokenDate(n int) any {
	switch n % 5 {
	case 0:
		return fmt.Sprintf("2011-02-%d", 30+n/5)
	case 1:
		return fmt.Sprintf("%d-05-11", 2100+n)
	case 2:
		return fmt.Sprintf("some day %d", n)
	case 3:
		return fmt.Sprintf("%d-13-01", 1950+n/5)
	}
	return fmt.Sprintf("18%02d-06-01", n/5)
}

func brokenTime(n int) any {
	switch n % 5 {
	case 0:
		return fmt.Sprintf("0:%02d", 1+n/5%40)
	case 1:
		return fmt.Sprintf("%d:10:00", 61+n)
	case 2:
		return fmt.Sprintf("14:%02d", 60+n/5%39)
	case 3:
		return fmt.Sprintf("quick %d", n)
	}
	return fmt.Sprintf("-%d:30", 10+n)
}

// A thousand people, each with another defect, beside a thousand without: every
// defect is told of at its cell, and everybody else is scored as if alone.
func TestThousandDefects(t *testing.T) {
	const defects = 1000
	header := []any{"Name", "Sex"}
	for _, c := range defectColumns {
		header = append(header, c.header)
	}
	person := func(name string) []any {
		row := []any{name, "F"}
		for _, c := range defectColumns {
			row = append(row, c.sound)
		}
		return row
	}
	rows := [][]any{header}
	at := map[int]int{} // row to column of its defect
	different := map[string]bool{}
	for n := range defects {
		column := n % len(defectColumns)
		value := defectColumns[column].broken(n / len(defectColumns))
		row := person(fmt.Sprintf("Broken %d", n))
		row[2+column] = value
		rows = append(rows, row, person(fmt.Sprintf("Sound %d", n)))
		at[len(rows)-1] = 3 + column
		different[fmt.Sprint(column, value)] = true
	}
	if len(different) != defects {
		t.Fatalf("only %d different defects", len(different))
	}
	roster := readRows(t, ReadOptions{Today: time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)}, rows...)
	told := map[string]bool{}
	var sound float64
	for _, visit := range people.Visits(roster) {
		o := result.New(&visit, &scoring.Options{}, nil)
		for _, p := range append(o.Problems(), roster.Problems...) {
			told[p.Cell] = true
		}
		column, broken := at[visit.Row.Number]
		if broken {
			if cell := grid.At(column, visit.Row.Number); !told[cell] {
				t.Errorf("%s: %v is not told of; %v", cell, rows[visit.Row.Number-1][column-1], o.Problems())
			}
			continue
		}
		best := o.Score(&scoring.Options{}).Best()
		if best == nil {
			t.Fatalf("row %d is not scored: %v", visit.Row.Number, o.Problems())
		}
		if sound == 0 {
			sound = float64(best.VO2)
		}
		if float64(best.VO2) != sound {
			t.Errorf("row %d: %v, others %v", visit.Row.Number, best.VO2, sound)
		}
	}
	if n := len(people.Visits(roster)); n != 2*defects {
		t.Errorf("%d people were read", n)
	}
}
