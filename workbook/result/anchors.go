package result

import (
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/splice"
)

// AnchorPrefix begins the hidden names of the header cells of result columns, such as
// _tenback_1_likely_low. LibreOffice allows no points in names.
const AnchorPrefix = "_tenback_"

// numberOf returns the number of the result column with an ID, or -1.
func numberOf(id string) int {
	return slices.IndexFunc(columns, func(c column) bool { return c.id == id })
}

// anchored returns the number of the result column that a name is for, or -1. The
// prefix is cut off.
func anchored(name string) int {
	_, id, _ := strings.Cut(name, "_")
	return numberOf(strings.ReplaceAll(strings.ToLower(id), "_", "-"))
}

// anchors gives each sheet a number that keeps its names apart from those of others.
type anchors struct {
	named map[string][]ooxml.NamedCell
	taken map[int]string // sheets by number
}

// newAnchors gives each number in use to the sheet with most of its names. named are
// the named cells of a workbook.
func newAnchors(named map[string][]ooxml.NamedCell) *anchors {
	a := &anchors{named: map[string][]ooxml.NamedCell{}, taken: map[int]string{}}
	most := map[int]int{}
	for sheet, cells := range named {
		counts := map[int]int{}
		for _, c := range cells {
			name, ours := strings.CutPrefix(strings.ToLower(c.Name), AnchorPrefix)
			if !ours {
				continue
			}
			c.Name = name
			a.named[sheet] = append(a.named[sheet], c)
			number, _, _ := strings.Cut(name, "_")
			if n, err := strconv.Atoi(number); err == nil && !c.Local {
				counts[n]++
			}
		}
		for n, count := range counts {
			if count > most[n] || count == most[n] && sheet < a.taken[n] {
				most[n], a.taken[n] = count, sheet
			}
		}
	}
	return a
}

// number returns the number of a sheet.
func (a *anchors) number(sheet string) int {
	own, free := 0, 1
	for n, s := range a.taken {
		if s == sheet && (own == 0 || n < own) {
			own = n
		}
	}
	if own > 0 {
		return own
	}
	for a.taken[free] != "" {
		free++
	}
	a.taken[free] = sheet
	return free
}

// missing returns the names that the sheet's result columns lack.
func (a *anchors) missing(e *sheetEdit) (names []splice.Name) {
	for _, c := range e.columns {
		at := grid.Address{Row: e.headerRow, Col: c.col}
		if slices.ContainsFunc(a.named[e.name], func(n ooxml.NamedCell) bool { return n.Address == at && anchored(n.Name) == numberOf(c.ID) }) {
			continue
		}
		name := AnchorPrefix + strconv.Itoa(a.number(e.name)) + "_" + strings.ReplaceAll(c.ID, "-", "_")
		names = append(names, splice.Name{Name: name, Sheet: e.name, Cell: at})
	}
	return names
}
