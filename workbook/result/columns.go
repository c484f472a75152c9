// Package result declares the result columns, and plans and writes their cells.
package result

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/sheetwords"
)

// column declares a result column. A new one is declared in [columns] and nowhere
// else; what other languages do not say of it is said in English.
type column struct {
	id      string // stable; names the words of the column
	header  string // in English; columns of an earlier run are found by it, in any language
	explain string // in English, for guides
	format  string // number format code; empty for the general one
	seasons bool   // written only where someone has earlier tests
	value   func(*sheetWords, *Outcome, *scoring.Score) Value

	// holds reports whether value can have written a cell that is not blank.
	holds func(*texts, cell.Raw) bool
	alone bool // the header's wording is ours alone, in every language
}

// key is that of the header or the explanation in [templates].
func (c *column) key(word string) string { return "sheet." + c.id + "." + word }

// columns lists the result columns in the order of the sheet.
var columns = []column{
	{id: vo2maxColumn, header: "VO2max (mL/kg/min)", format: formatTenths, value: bestVO2, holds: amounts(0, 120),
		explain: "Most oxygen the body can take up, per kilogram and minute, as the best test of the row reads it."},
	{id: lowColumn, header: "Likely low", format: formatTenths, value: likelyLow, holds: amounts(-30, 120), alone: true,
		explain: "Lower end of the range that holds the true value about two times in three."},
	{id: highColumn, header: "Likely high", format: formatTenths, value: likelyHigh, holds: amounts(0, 150), alone: true,
		explain: "Upper end of that range."},
	{id: sourceColumn, header: "Estimated from", value: estimatedFrom, holds: isSource, alone: true,
		explain: "The test and the equation behind the value, or measured."},
	{id: "group", header: "Group", value: groupText, holds: isPhrase,
		explain: "Adults: the group among people of the same sex and decade of age. Under 18: on which side of the health line."},
	{id: "percentile", header: "Percentile", format: formatWhole, value: percentile, holds: isPercentile,
		explain: "Share of people of the same sex and decade, in the table of the group, with a lower value. Adults only."},
	{id: "next", header: "Next group needs", value: nextGroup, holds: isPhrase, alone: true,
		explain: "The value that opens the next group, how much is missing, and the result in the same test that would show it."},
	{id: "decade-1", header: "One decade younger", value: oneDecadeYounger, holds: isPhrase, alone: true,
		explain: "The group of the same value among people a decade younger, and what the next group there takes."},
	{id: "decade-2", header: "Two decades younger", value: twoDecadesYounger, holds: isPhrase, alone: true,
		explain: "The same among people two decades younger."},
	{id: "resting", header: "Resting rate", value: restingText, holds: isRate,
		explain: "What the resting heart rate says: how practitioners read it, and its place among people of the same sex and age, where a low percentile is a slow pulse."},
	{id: reportColumn, header: "Report", format: formatText, value: reportName, holds: isFile,
		explain: "File name of the person's page."},
	// The longest text, so it comes last of those that are always written.
	{id: flagsColumn, header: "Flags", value: flagsText, holds: isFlags,
		explain: "What to know before using the value, the gravest first; for a row without a value, the reason."},
	{id: "change", header: "Change (mL/kg/min)", format: formatSigned, seasons: true, value: changeValue, holds: amounts(-100, 100),
		explain: "VO2max now less VO2max at the earlier test, by the same equation where both have one."},
	{id: "chance", header: "Chance real", format: formatPercent, seasons: true, value: changeChance, holds: amounts(0, 1), alone: true,
		explain: "How likely it is that the change is real in the direction in which it points. Half means that nothing can be told; from 97.5% on it counts as real."},
	{id: "since", header: "Since", seasons: true, value: sinceText, holds: isPhrase,
		explain: "The earlier test, and what the change is called by its chance; the heart rate at the same pace; a resting heart rate that stays up. Or why nothing was compared."},
}

// The columns that are asked for by name.
const (
	vo2maxColumn = "vo2max"
	lowColumn    = "likely-low"
	highColumn   = "likely-high"
	sourceColumn = "estimated-from"
	reportColumn = "report" // names a person's page
	flagsColumn  = "flags"
)

// The number formats of result cells.
const (
	formatTenths = "0.0"
	formatWhole  = "0"
	formatText   = "@" // stays text when someone edits the cell

	formatSigned  = "+0.0;-0.0;0.0"
	formatPercent = "0%"
)

// The English of the columns; other languages have it in templates.
func init() {
	words := scoring.NewPhrasebook("sheet.")
	for _, c := range columns {
		words.Say(c.id+".header", c.header)
		words.Say(c.id+".explain", c.explain)
	}
}

// Column is a result column in some language.
type Column struct {
	ID      string // stable short name
	Header  string // as it stands in the sheet
	Explain string
	Format  string // number format code; empty for the general one
	Seasons bool   // written only where someone has earlier tests
	Value   func(*Outcome, *scoring.Score) Value
}

// Columns lists the result columns in the order of the sheet. Headers are those
// that come with the program, because an earlier run's columns are found by them.
func Columns(words *sheetwords.Words) []Column {
	w := &sheetWords{words}
	heads := sheetwords.Of(sheetwords.Builtin()[w.Set.Lang()])
	var all []Column
	for _, c := range columns {
		all = append(all, Column{ID: c.id, Header: heads.Say(c.key("header"), nil), Explain: w.OneLine(c.key("explain"), nil),
			Format: c.format, Seasons: c.seasons, Value: func(o *Outcome, s *scoring.Score) Value { return c.value(w, o, s) }})
	}
	return all
}

// Value is the content of a result cell: a number, a text or nothing.
type Value struct {
	Number float64
	Text   string // always text, also where it looks like a formula
	kind   valueKind
}

type valueKind uint8

const (
	blank valueKind = iota
	number
	text
)

// NumberValue returns a number, which must be finite.
func NumberValue(x float64) Value { return Value{Number: x, kind: number} }

// TextValue returns a text; the empty text is nothing.
func TextValue(s string) Value {
	if s == "" {
		return Value{}
	}
	return Value{Text: s, kind: text}
}

// IsNumber reports whether the value is a number.
func (v Value) IsNumber() bool { return v.kind == number }

// IsBlank reports whether the value is empty.
func (v Value) IsBlank() bool { return v.kind == blank }
