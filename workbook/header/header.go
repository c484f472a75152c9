// Package header finds the header of a sheet, and what the titles above it say.
package header

import (
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

const (
	// Depth is the number of rows searched for the header.
	Depth = 30
	// Width is the number of filled cells of a row considered as headers.
	Width = 1000
)

// Ignored is the name that leaves a column out.
const Ignored = "ignore"

// Names recognises headers, using the new Names of those that the user renamed.
type Names struct {
	Renamed map[string]string // by heading.Key
	at      map[int]string    // by column, which wins
}

// Match finds the meaning of a header.
func (ns Names) Match(header string) (heading.Heading, bool) {
	if known, ok := ns.Renamed[heading.Key(header)]; ok {
		return named(known)
	}
	return heading.Match(header)
}

// named finds the meaning that a user gave a column.
func named(known string) (heading.Heading, bool) {
	if heading.Key(known) == Ignored {
		return heading.Heading{Meaning: roster.Meaning{Role: roster.Other}}, true
	}
	return heading.Match(known)
}

// Row is one of the first rows of a sheet.
type Row struct {
	Number int
	Hidden bool
	Cells  []ooxml.Cell

	Date1904 bool
}

// label returns the text of a cell; a date is written year first.
func (h *Row) label(c ooxml.Cell) string {
	if isDate(c.Raw) {
		return cell.Display(c.Raw, h.Date1904)
	}
	return cell.Label(c.Raw)
}

func isDate(r cell.Raw) bool {
	return r.Kind == cell.Number && r.Format.IsTemporal() && !r.Format.IsTime()
}

// labels returns the row's texts by 0-based column, with years and attempts in
// numbers.
func (h *Row) labels() []string {
	all := h.texts()
	for _, c := range h.Cells {
		if c.Kind != cell.Text {
			all[c.Col-1] = h.label(c)
		}
	}
	return all
}

// texts returns the row's texts by 0-based column.
func (h *Row) texts() []string {
	if len(h.Cells) == 0 {
		return nil
	}
	all := make([]string, h.Cells[len(h.Cells)-1].Col)
	for _, c := range h.Cells {
		if c.Kind == cell.Text || isDate(c.Raw) {
			all[c.Col-1] = h.label(c)
		}
	}
	return all
}

// Find returns the index of the row with the most recognised columns, or
// -1. One of them must name a person.
func (ns Names) Find(rows []Row) int {
	best, most := -1, 1
	for i := range rows {
		if i > 0 && ns.headsBlock(&rows[i], rows[i-1].labels()) {
			continue
		}
		if n := ns.scoreHeader(ns.withAbove(rows, i)); n > most {
			best, most = i, n
		}
	}
	return best
}

// scoreHeader counts the different meanings in the texts of a row. It returns 0
// unless one identifies a person and one can be scored.
func (ns Names) scoreHeader(texts []string) int {
	seen := map[roster.Meaning]bool{}
	person, matter := false, false
	looked := 0
	last := roster.Unknown
	for _, text := range texts {
		if text == "" {
			last = roster.Unknown
			continue
		}
		if looked++; looked > Width {
			break
		}
		h, ok := ns.Match(text)
		pair := last == roster.LevelPart && heading.IsShuttlePart(h.Meaning, text)
		if last = h.Role; !ok || h.Role == roster.Minutes || h.Role == roster.SecondsOf || h.Role == roster.LevelPart || h.Role == roster.ShuttlePart && !pair {
			continue
		}
		seen[h.Meaning] = true
		switch {
		case h.Role.IsPerson():
			person = true
		case h.Role != roster.Group && h.Role != roster.TestDate && h.Role != roster.Other && h.Role != roster.Audience && h.Role != roster.Language:
			matter = true
		}
	}
	if !person || !matter {
		return 0
	}
	return len(seen)
}
