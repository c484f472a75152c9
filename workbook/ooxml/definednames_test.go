package ooxml

import (
	"testing"

	"tenback/workbook/grid"
)

func TestNamesStandForCells(t *testing.T) {
	for formula, want := range map[string]struct {
		sheet string
		at    grid.Address
	}{
		"'It''s 7b'!$G$3":       {"It's 7b", grid.Address{Row: 3, Col: 7}},
		" Week!G3 ":             {"Week", grid.Address{Row: 3, Col: 7}},
		"Week!$G$3:$G$3":        {"Week", grid.Address{Row: 3, Col: 7}},
		"'a!b'!$A$1":            {"a!b", grid.Address{Row: 1, Col: 1}},
		"#REF!":                 {},
		"Week!#REF!":            {},
		"Week!$G$3:$G$4":        {},
		"Week!$G:$G":            {},
		"$G$3":                  {},
		"!$G$3":                 {},
		"":                      {},
		"OFFSET(Week!$G$3,0,0)": {},
		"SUM(Week!$G$3)":        {},
	} {
		n := DefinedName{Formula: formula}
		sheet, at, ok := n.Cell()
		if !ok {
			sheet = ""
		}
		if sheet != want.sheet || ok && at != want.at {
			t.Errorf("%q stands for %q %v (%v)", formula, sheet, at, ok)
		}
	}
}
