package reading

import (
	"strconv"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// pairImperial pairs a column of feet with the inches beside it, and stones with
// pounds.
func (cs columns) pairImperial() {
	for i, c := range cs {
		small := scoring.Inches
		if c.unclear == heading.InStones {
			small = scoring.Pounds
		}
		if c.unclear != heading.InFeet && c.unclear != heading.InStones || i+1 == len(cs) || c.Meaning.Role != roster.InputData {
			continue
		}
		d := cs[i+1]
		if d.Index == c.Index+1 && d.Meaning.Role == roster.InputData && d.Meaning.Input == c.Meaning.Input && d.Meaning.Unit == small && d.Meaning.UnitGiven {
			c.rest, d.Meaning = d, roster.Meaning{Role: roster.RestOf}
		}
	}
}

// joinPairs joins the two cells of each row into one text, as it would be
// typed.
func joinPairs(used columns, rows []rawRow) {
	for _, c := range used {
		if c.rest == nil {
			continue
		}
		unit, end := "'", `"`
		if c.unclear == heading.InStones {
			unit, end = " st ", ""
		}
		if lap := c.Meaning.LapMetres; lap > 0 {
			c.Meaning.LapMetres = 0
			joinLaps(c, lap, rows)
			continue
		}
		for i := range rows {
			large, rest := rows[i].cells[c.slot], rows[i].cells[c.rest.slot]
			if large.IsBlank() {
				continue
			}
			text := cell.Label(rest)
			if text == "" {
				text = "0"
			}
			rows[i].cells[c.slot] = cell.Raw{Kind: cell.Text, Text: cell.Label(large) + unit + text + end}
		}
	}
}

// joinLaps adds the laps of each row, of so many metres, to the part of a lap.
func joinLaps(c *sheetColumn, lap float64, rows []rawRow) {
	for i := range rows {
		laps, ok := cell.BareNumber(rows[i].cells[c.slot])
		part, other := cell.BareNumber(rows[i].cells[c.rest.slot])
		if ok && (other || rows[i].cells[c.rest.slot].IsBlank()) {
			rows[i].cells[c.slot] = cell.Raw{Kind: cell.Number, Text: strconv.FormatFloat(laps.Amount*lap+part.Amount, 'f', -1, 64)}
		}
	}
}

// repeatFrom reports whether a column from index at on repeats the meaning of an
// earlier one.
func (cs columns) repeatFrom(at int, before map[roster.Meaning]bool) bool {
	for _, c := range cs[at:] {
		m := roster.Meaning{Role: c.Meaning.Role, Input: c.Meaning.Input, Test: c.Meaning.Test}
		if before[m] && !m.Role.IsPerson() && m.Role != roster.Unknown && m.Role != roster.Ours && m.Role != roster.Other {
			return true
		}
	}
	return false
}
