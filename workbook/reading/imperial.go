package reading

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// pairImperial joins a column of feet with the inches beside it, and one of
// stones with the pounds.
func (sr *sheetReader) pairImperial() {
	for i, c := range sr.columns {
		small := scoring.Inches
		if c.unclear == heading.InStones {
			small = scoring.Pounds
		}
		if c.unclear != heading.InFeet && c.unclear != heading.InStones || i+1 == len(sr.columns) || c.Meaning.Role != roster.InputData {
			continue
		}
		d := sr.columns[i+1]
		if d.Index == c.Index+1 && d.Meaning.Role == roster.InputData && d.Meaning.Input == c.Meaning.Input && d.Meaning.Unit == small && d.Meaning.UnitGiven {
			c.rest, d.Meaning = d, roster.Meaning{Role: roster.RestOf}
		}
	}
}

// joinImperial puts the two numbers of a row into one, as it would be typed.
func (sr *sheetReader) joinImperial() {
	for _, c := range sr.used {
		if c.rest == nil {
			continue
		}
		unit, end := "'", `"`
		if c.unclear == heading.InStones {
			unit, end = " st ", ""
		}
		for i := range sr.kept {
			large, rest := sr.kept[i].cells[c.slot], sr.kept[i].cells[c.rest.slot]
			if large.IsBlank() {
				continue
			}
			text := cell.Label(rest)
			if text == "" {
				text = "0"
			}
			sr.kept[i].cells[c.slot] = cell.Raw{Kind: cell.Text, Text: cell.Label(large) + unit + text + end}
		}
	}
}
