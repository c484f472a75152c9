package workbook

import (
	"bytes"
	"math"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
)

func demoBytes(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteDemo(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestDemoIsTheSameEachTime(t *testing.T) {
	if !bytes.Equal(demoBytes(t), demoBytes(t)) {
		t.Error("two demonstration rosters differ")
	}
}

// Everything that is declared is shown, and what is not messy scores as it was
// meant to.
func TestDemoShowsEveryTest(t *testing.T) {
	draw := newDemoDraw()
	people, youngest, oldest := 0, 200, 0
	sexes := map[scoring.Sex]int{}
	for _, sheet := range demoSheets() {
		rows, err := draw.rows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for i := range rows {
			r := &rows[i]
			people++
			youngest, oldest = min(youngest, r.age), max(oldest, r.age)
			sexes[r.sex]++
			score := scoring.Assess(&r.entry)
			best := score.Best()
			if best == nil && len(score.Norms) == 0 {
				t.Errorf("%s is not scored: %+v", r.name, score.Refused)
			} else if best != nil && math.Abs(float64(best.VO2-r.uptake)) > demoMiss {
				t.Errorf("%s was to have %.1f and has %.1f from %s", r.name, r.uptake, best.VO2, best.Equation.Name)
			}
		}
	}
	for _, test := range scoring.Tests() {
		if draw.used[test] == 0 && offered(test) {
			t.Errorf("nobody does the %s", test.Name)
		}
	}
	if people < 55 || youngest > 9 || oldest < 84 || sexes[scoring.SexUnspecified] == 0 {
		t.Errorf("%d people of %d to %d years, sexes %v", people, youngest, oldest, sexes)
	}
}

func TestDemoNamesStayText(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(demoBytes(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("Otter squad")
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for i, row := range rows {
		if cellAt(row, 1) == `=HYPERLINK("x")` {
			found = true
			cell, _ := excelize.CoordinatesToCellName(1, i+1)
			if formula, _ := f.GetCellFormula("Otter squad", cell); formula != "" {
				t.Errorf("a name became the formula %q", formula)
			}
		}
	}
	if !found {
		t.Error("the name that looks like a formula is missing")
	}
}
