package source

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"tenback/workbook/cell"
	"tenback/workbook/delimited"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/splice"
)

// maxOddities bounds the remarks about the quotation marks of a text file.
const maxOddities = 20

// textSource is a text file as a [Book]: one sheet whose cells are all text. So
// 7.10 is shuttle 10, and 11:30 is minutes and seconds, as typed.
type textSource struct {
	file  *delimited.File
	sheet ooxml.Sheet
}

// openText reads and checks a text file.
func openText(path string, r io.ReaderAt, size int64) (*File, error) {
	fail := func(kind error, why string, cause error) (*File, error) {
		return nil, &Error{Path: path, Kind: kind, Why: why, Cause: cause}
	}
	if size == 0 {
		return fail(ErrEmpty, "the file is empty", nil)
	}
	data, err := io.ReadAll(io.NewSectionReader(r, 0, min(size, delimited.MaxBytes+1)))
	if err != nil {
		return fail(ErrUnreadable, "the file can't be read to its end", err)
	}
	file, err := delimited.Parse(data)
	switch {
	case errors.Is(err, delimited.ErrTooLarge):
		return fail(ErrTooLarge, fmt.Sprintf("the file is larger than the %d MB of text that are read at once; split it", delimited.MaxBytes>>20), err)
	case err != nil:
		return fail(ErrNotWorkbook, `this text file can't be read; save it from your spreadsheet program as "CSV UTF-8" or as .xlsx`, err)
	}
	t := &textSource{file: file, sheet: ooxml.Sheet{Name: sheetName(path), Cells: true}}
	problems, err := t.check(path)
	if err != nil {
		return nil, err
	}
	return &File{Book: t, In: roster.Container{Text: true}, Problems: problems}, nil
}

// check compares the file with the limits of a sheet, because the results go into
// one, and lists what may have been misread.
func (t *textSource) check(path string) (problems []roster.Problem, err error) {
	say := func(p roster.Problem) {
		p.Sheet = t.sheet.Name
		problems = append(problems, p)
	}
	odd, foreign := 0, !t.file.Guessed
	for rows := t.file.Rows(); rows.Next(); {
		number, fields := rows.Number(), rows.Fields()
		if number > grid.MaxRow || len(fields) > grid.MaxCol {
			return nil, &Error{Path: path, Kind: ErrTooLarge, Why: fmt.Sprintf("row %d: the file has more rows or columns than a sheet can hold (%d and %d)", number, grid.MaxRow, grid.MaxCol)}
		}
		for i, field := range fields {
			at := grid.At(i+1, number)
			if !splice.Fits(field) {
				return nil, &Error{Path: path, Kind: ErrTooLarge, Why: fmt.Sprintf("%s: there are more characters than a cell can hold; is a quotation mark missing?", at)}
			}
			if !foreign && strings.ContainsFunc(field, func(r rune) bool { return r >= utf8.RuneSelf }) {
				foreign = true
				say(roster.Problem{Cell: at, Read: cell.Display(cell.Raw{Kind: cell.Text, Text: field}, false),
					What: noEncoding, Fix: fixEncoding})
			}
		}
		for _, o := range rows.Oddities() {
			if odd++; odd > maxOddities {
				break
			}
			p := roster.Problem{Cell: grid.At(o.Field+1, number), What: joinedLines, Fix: fixJoinedLines}
			if o.Open {
				p.What, p.Fix = openQuote, fixOpenQuote
			}
			p.Read = cell.Display(cell.Raw{Kind: cell.Text, Text: fields[o.Field]}, false)
			say(p)
		}
	}
	return problems, nil
}

func (t *textSource) Sheets() []ooxml.Sheet { return []ooxml.Sheet{t.sheet} }
func (t *textSource) Date1904() bool        { return false }

func (t *textSource) Rows(ooxml.Sheet) (Rows, error) {
	return &textRows{rows: t.file.Rows()}, nil
}

func (t *textSource) Tables(ooxml.Sheet) ([]ooxml.Table, bool, error) { return nil, false, nil }

func (t *textSource) NamedCells(string) (map[string][]ooxml.NamedCell, error) { return nil, nil }

// textRows iterates over the rows with a filled cell.
type textRows struct {
	rows *delimited.Rows
	row  ooxml.Row
}

func (t *textRows) Next() bool {
	for t.rows.Next() {
		t.row = ooxml.Row{Number: t.rows.Number(), Cells: t.row.Cells[:0]}
		for i, field := range t.rows.Fields() {
			if text := fieldText(field); text != "" {
				text = strings.Clone(text) // a substring would keep the whole file in memory
				t.row.Cells = append(t.row.Cells, ooxml.Cell{Col: i + 1, Raw: cell.Raw{Kind: cell.Text, Text: text}})
			}
		}
		if len(t.row.Cells) > 0 {
			return true
		}
	}
	return false
}

func (t *textRows) Row() *ooxml.Row       { return &t.row }
func (t *textRows) Err() error            { return nil }
func (t *textRows) Close()                {}
func (t *textRows) Merged() []grid.Range  { return nil }
func (t *textRows) HiddenColumn(int) bool { return false }
func (t *textRows) Filtered() bool        { return false }

// fieldText returns what a spreadsheet would show of a field. Some programs write
// ="0417" for a spreadsheet to keep the zero.
func fieldText(field string) string {
	inner, quoted := strings.CutPrefix(field, `="`)
	if text, closed := strings.CutSuffix(inner, `"`); quoted && closed && !strings.Contains(text, `"`) {
		return text
	}
	return field
}

// maxSheetName is the length of the longest name of a sheet.
const maxSheetName = 31

// sheetName returns the name of the sheet for a text file.
func sheetName(path string) string {
	name := filepath.Base(path)
	name = strings.TrimSuffix(name, filepath.Ext(name))
	runes := []rune(strings.Map(func(r rune) rune {
		if r < ' ' || r > 0xFFFF || strings.ContainsRune(`[]:*?/\`, r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(name, " ")))
	name = strings.Trim(string(runes[:min(len(runes), maxSheetName)]), "' ")
	if name == "" || strings.EqualFold(name, "history") || roster.IsOwnSheet(name) {
		return "Roster" // those names are taken
	}
	return name
}
