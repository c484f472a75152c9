// Package header finds the header of a sheet, and what the titles above it say.
package header

import (
	"slices"

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
}

// texts returns the row's texts by 0-based column.
func (h *Row) texts() []string {
	if len(h.Cells) == 0 {
		return nil
	}
	all := make([]string, h.Cells[len(h.Cells)-1].Col)
	for _, c := range h.Cells {
		if c.Kind == cell.Text {
			all[c.Col-1] = cell.Label(c.Raw)
		}
	}
	return all
}

// Find returns the index of the row with the most recognised columns, or
// -1. One of them must name a person.
func (ns Names) Find(rows []Row) int {
	best, most := -1, 1
	for i := range rows {
		if n := ns.scoreHeader(ns.underAbove(rows, i)); n > most {
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

// Texts returns the texts of the header. It joins two rows, such as "1.5 mile
// run" over "min" and "s". depth counts the rows from the header row on.
func (ns Names) Texts(rows []Row, at int) (texts []string, depth int) {
	own := ns.underAbove(rows, at)
	if at+1 < len(rows) && rows[at+1].Number == rows[at].Number+1 {
		if joined, ok := ns.secondRow(own, &rows[at+1]); ok {
			return joined, 2
		}
	}
	return own, 1
}

// underAbove completes the texts of a row with those of the row above, if they
// are not enough by themselves.
func (ns Names) underAbove(rows []Row, at int) []string {
	own := rows[at].texts()
	if at == 0 || rows[at-1].Number != rows[at].Number-1 {
		return own
	}
	above := rows[at-1].texts()
	for i, text := range own[:min(len(own), Width)] {
		if joined := joinHeaders(carried(above, i), text); text != "" && joined != text && ns.needsMore(text) && ns.isKnown(joined) {
			own[i] = joined
		}
	}
	return own
}

func joinHeaders(above, below string) string {
	switch {
	case above == "":
		return below
	case below == "":
		return above
	}
	return above + " " + below
}

// carried returns the text of a column or of the nearest filled one to its left,
// as under a merged cell.
func carried(texts []string, i int) string {
	for i = min(i, len(texts)-1); i >= 0; i-- {
		if texts[i] != "" {
			return texts[i]
		}
	}
	return ""
}

// needsMore reports whether a header is unknown, or not enough by itself.
func (ns Names) needsMore(header string) bool {
	h, ok := ns.Match(header)
	switch {
	case !ok:
		return true
	case h.Role == roster.InputData:
		return h.Test == nil && !h.Input.Info().Personal
	}
	return slices.Contains([]roster.Role{roster.Result, roster.Minutes, roster.SecondsOf, roster.HeartRate, roster.LevelPart, roster.ShuttlePart}, h.Role)
}

func (ns Names) isKnown(header string) bool {
	_, ok := ns.Match(header)
	return ok
}

// secondRow joins a row below the header that completes it: words such as "min"
// and "pulse" below a test's name, or units. A row of units may have other words
// too.
func (ns Names) secondRow(own []string, row *Row) ([]string, bool) {
	below := row.texts()
	joined := append([]string(nil), own...)
	for len(joined) < len(below) {
		joined = append(joined, "")
	}
	completed, units, others := false, 0, 0
	for _, c := range row.Cells {
		i := c.Col - 1
		if c.Kind != cell.Text {
			return nil, false
		}
		head := carried(own, i)
		text := joinHeaders(head, below[i])
		isUnit := heading.IsUnit(below[i])
		if isUnit {
			text = head + " (" + below[i] + ")"
			units++
		}
		switch known := ns.isKnown(text) && (isUnit || ns.isKnown(below[i])); {
		case known:
			joined[i], completed = text, true
		case isUnit:
		case ns.namesPerson(head):
			return nil, false // someone's name
		default:
			others++
		}
	}
	return joined, completed && (others == 0 || units > others)
}

func (ns Names) namesPerson(header string) bool {
	h, ok := ns.Match(header)
	return ok && h.Role.IsPerson()
}
