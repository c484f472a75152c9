package source

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/delimited"
	"tenback/workbook/roster"
	"tenback/workbook/splice"
)

// The widths that the columns of a text file get, in characters.
const (
	leastWidth = 8
	mostWidth  = 40
	widthRows  = 200 // considered
)

// bookOfText returns a workbook with the rows of a text file. Every cell is text
// as in the file, except plain numbers in columns of amounts: those become
// numbers whose format shows the same digits.
func bookOfText(data []byte, r *roster.Roster) ([]byte, error) {
	file, err := delimited.Parse(data)
	if err != nil {
		return nil, err
	}
	name := sheetName(r.Path)
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetSheetName(f.GetSheetName(0), name); err != nil {
		return nil, err
	}
	var empty, book bytes.Buffer
	if err := f.Write(&empty); err != nil {
		return nil, err
	}
	t := textBook{file: file, below: map[int]bool{}}
	for _, s := range slices.Concat(r.Sheets, r.Lists) {
		t.header = s.HeaderRow
		for _, c := range s.Columns {
			if holdsAmounts(c.Meaning) {
				t.below[c.Index] = true
			}
		}
	}
	// The format of number n shows n-1 decimals.
	styles := []splice.Style{{NumberFormat: "0"}}
	for n := 1; n <= maxDecimals; n++ {
		styles = append(styles, splice.Style{NumberFormat: "0." + strings.Repeat("0", n)})
	}
	edit := splice.Edit{Styles: styles, Sheets: []splice.Sheet{{Name: name, Cells: t.cells, Widths: t.widths()}}}
	empties := bytes.NewReader(empty.Bytes())
	if _, err := splice.Apply(context.Background(), empties, empties.Size(), &book, edit); err != nil {
		return nil, err
	}
	return book.Bytes(), nil
}

// holdsAmounts reports whether numbers in a column are amounts: not names or IDs,
// nor times or levels, which are ambiguous as numbers.
func holdsAmounts(m roster.Meaning) bool {
	switch m.Role {
	case roster.InputData:
		return m.Input != scoring.Time && m.Input != scoring.StageTime && m.Input != scoring.ShuttleLevel
	case roster.Unknown, roster.Other, roster.Unscored, roster.HeartRate:
		return true
	}
	return false
}

// textBook yields the rows of a text file as cells.
type textBook struct {
	file   *delimited.File
	header int          // row
	below  map[int]bool // columns of amounts
}

func (t *textBook) cells(yield func(splice.Cell) bool) {
	for rows := t.file.Rows(); rows.Next(); {
		for i, field := range rows.Fields() {
			text := fieldText(field)
			if text == "" {
				continue
			}
			c := splice.Cell{Row: rows.Number(), Col: i + 1, Kind: splice.Text, Text: text}
			if x, decimals, ok := plainNumber(text); ok && c.Row > t.header && t.below[c.Col] {
				c = splice.Cell{Row: c.Row, Col: c.Col, Kind: splice.Number, Number: x, Style: decimals + 1}
			}
			if !yield(c) {
				return
			}
		}
	}
}

// widths returns the widths of the columns by the longest text in the first rows.
func (t *textBook) widths() map[int]float64 {
	widths := map[int]float64{}
	for rows := t.file.Rows(); rows.Next() && rows.Number() <= widthRows; {
		if len(rows.Fields()) == 1 {
			continue // a title, which may extend over its neighbours
		}
		for i, field := range rows.Fields() {
			widths[i+1] = max(widths[i+1], leastWidth, min(mostWidth, float64(utf8.RuneCountInString(field)+2)))
		}
	}
	return widths
}

// The most digits before and behind the decimal point that a cell keeps exactly.
const (
	maxWhole    = 9
	maxDecimals = 6
)

var plainForm = cell.Pattern(fmt.Sprintf(`^-?(?:0|[1-9]\d{0,%d})(?:\.(\d{1,%d}))?$`, maxWhole-1, maxDecimals))

// plainNumber parses a number whose digits a cell shows unchanged.
func plainNumber(text string) (x float64, decimals int, ok bool) {
	m := plainForm().FindStringSubmatch(text)
	if m == nil {
		return 0, 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	decimals = len(m[1])
	shown := x + 0 // a cell shows no -0
	return x, decimals, err == nil && strconv.FormatFloat(shown, 'f', decimals, 64) == text
}
