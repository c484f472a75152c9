package workbook

import (
	"slices"
	"strings"
)

// ResultColumn declares one column that is written into a roster.
type ResultColumn struct {
	ID      string // stable short name
	Header  string // as it stands in the sheet; columns are found again by it
	Explain string // what it says, for a guide
	Width   float64
	Format  string // number format code; empty for the general one
	Value   func(*Outcome) Value
}

// Value is what one result cell holds: a number, a text or nothing.
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

// NumberValue makes a Value that is a number; it must be finite.
func NumberValue(x float64) Value { return Value{Number: x, kind: number} }

// TextValue makes a Value that is a text; the empty text is nothing.
func TextValue(s string) Value {
	if s == "" {
		return Value{}
	}
	return Value{Text: s, kind: text}
}

// IsNumber tells whether the value is a number.
func (v Value) IsNumber() bool { return v.kind == number }

// IsBlank tells whether the value is nothing.
func (v Value) IsBlank() bool { return v.kind == blank }

// The number formats of result cells.
const (
	formatTenths = "0.0"
	formatWhole  = "0"
	formatText   = "@" // stays text when someone edits the cell
)

// resultColumns is the one declaration of what is written. Their order is
// their order in the sheet.
var resultColumns = []ResultColumn{
	{"vo2max", "VO2max (mL/kg/min)", "Most oxygen the body can take up, per kilogram and minute, as the best test of the row reads it.",
		19, formatTenths, bestVO2},
	{"likely-low", "Likely low", "Lower end of the range that holds the true value about two times in three.",
		11, formatTenths, likelyLow},
	{"likely-high", "Likely high", "Upper end of that range.",
		11, formatTenths, likelyHigh},
	{"estimated-from", "Estimated from", "The test and the equation behind the value, or measured.",
		44, "", estimatedFrom},
	{"group", "Group", "Adults: the group among people of the same sex and decade of age. Under 18: on which side of the health line.",
		22, "", groupText},
	{"percentile", "Percentile", "Share of people of the same sex and decade, measured in laboratories, with a lower value. Another table than the group's. Adults only.",
		11, formatWhole, percentile},
	{"next", "Next group needs", "The value that opens the next group, how much is missing, and the result in the same test that would show it.",
		46, "", nextGroup},
	{"decade-1", "One decade younger", "The group of the same value among people a decade younger, and what the next group there takes.",
		54, "", oneDecadeYounger},
	{"decade-2", "Two decades younger", "The same among people two decades younger.",
		54, "", twoDecadesYounger},
	{"resting", "Resting rate", "What the resting heart rate says: how practitioners read it, and its place among people of the same sex and age, where a low percentile is a slow pulse.",
		44, "", restingText},
	{"flags", "Flags", "What to know before using the value, the gravest first; for a row without a value, the reason.",
		60, "", flagsText},
	{"report", "Report", "File name of the person's page.",
		30, formatText, reportName},
}

// ResultColumns lists the result columns in the order in which they are
// written.
func ResultColumns() []ResultColumn { return slices.Clone(resultColumns) }

// OurColumns finds the result columns of an earlier run in a header row and
// returns their indexes, rising; none if there was no earlier run.
//
// A roster may well have a "Group" or a "VO2max" column of its own, so a
// header alone proves nothing. Ours are at least three of our headers in our
// order, beginning with the first two side by side. Columns that someone put
// in between are stepped over, but behind such a gap two of ours must stand
// side by side to count.
func OurColumns(headers []string) []int {
	var ours []int
	for start := range headers {
		run := ourRun(headers, start)
		if len(run) >= 3 {
			for _, i := range run {
				if !slices.Contains(ours, i) {
					ours = append(ours, i)
				}
			}
		}
	}
	slices.Sort(ours)
	return ours
}

// ourRun collects the result columns of the block that begins at start.
func ourRun(headers []string, start int) []int {
	run, next := oursFrom(headers, start, 0)
	if len(run) < 2 || resultIndex(headers[run[1]]) != 1 || resultIndex(headers[run[0]]) != 0 {
		return nil
	}
	for i := run[len(run)-1] + 1; i < len(headers); {
		if resultIndex(headers[i]) == 0 {
			break // another block
		}
		piece, after := oursFrom(headers, i, next)
		if len(piece) >= 2 {
			run, next = append(run, piece...), after
		}
		i += max(1, len(piece))
	}
	return run
}

// oursFrom collects, from one place on, the headers side by side that are ours
// in rising order, beginning with result column number next or a later one.
func oursFrom(headers []string, from, next int) (run []int, after int) {
	for i := from; i < len(headers); i++ {
		at := resultIndex(headers[i])
		if at < next {
			break
		}
		run, next = append(run, i), at+1
	}
	return run, next
}

// resultIndex is the place of a header among the result columns, or -1. In a
// table a header that was taken has got a number: Group2.
func resultIndex(header string) int {
	header = strings.TrimRight(strings.TrimSpace(header), "0123456789")
	return slices.IndexFunc(resultColumns, func(c ResultColumn) bool { return strings.EqualFold(c.Header, header) })
}
