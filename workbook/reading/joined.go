package reading

import (
	"strconv"

	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/heading"
)

// joinPairs joins the two cells of each row into one text, as it would be
// typed.
func joinPairs(used columns.List, rows []rawRow) {
	for _, c := range used {
		if c.Rest == nil {
			continue
		}
		unit, end := "'", `"`
		if c.Unclear == heading.InStones {
			unit, end = " st ", ""
		}
		if lap := c.Meaning.LapMetres; lap > 0 {
			c.Meaning.LapMetres = 0
			joinLaps(c, lap, rows)
			continue
		}
		for i := range rows {
			large, rest := rows[i].cells[c.Slot], rows[i].cells[c.Rest.Slot]
			if large.IsBlank() {
				continue
			}
			text := cell.Label(rest)
			if text == "" {
				text = "0"
			}
			rows[i].cells[c.Slot] = cell.Raw{Kind: cell.Text, Text: cell.Label(large) + unit + text + end}
		}
	}
}

// joinLaps adds the laps of each row, of so many metres, to the part of a lap.
func joinLaps(c *columns.Column, lap float64, rows []rawRow) {
	for i := range rows {
		laps, ok := cell.BareNumber(rows[i].cells[c.Slot])
		part, other := cell.BareNumber(rows[i].cells[c.Rest.Slot])
		if ok && (other || rows[i].cells[c.Rest.Slot].IsBlank()) {
			rows[i].cells[c.Slot] = cell.Raw{Kind: cell.Number, Text: strconv.FormatFloat(laps.Amount*lap+part.Amount, 'f', -1, 64)}
		}
	}
}
