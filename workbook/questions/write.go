package questions

import (
	"io"
	"math"
	"net/url"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/sheetwords"
)

// mostLinks is how many cells are linked to the roster. More would make the file
// slow to write and to open.
const mostLinks = 2000

// The columns of both sheets, each with the key of its header and its width.
var (
	columnFields = []field{{"sheet", 14}, {"column", 8}, {"header", 24}, {"values", 26}, {"read-as", 26}, {"answer", 28}, {"why", 60}}
	cellFields   = []field{{"sheet", 14}, {"cell", 8}, {"person", 22}, {"was", 18}, {"what", 44}, {"type", 44}, {"answer", 24}}
)

type field struct {
	key   string
	width float64
}

// between separates values in one cell.
const between = " · "

// The kinds of the two sheets, as the keys of their words have them.
const (
	columnsSheet = "columns"
	cellsSheet   = "cells"
)

// Write writes the Book about the roster with this file name.
func (b *Book) Write(w io.Writer, rosterName string, words *templates.Set) error {
	return writeBook(w, rosterName, words, "questions.document", func(o *writing) {
		o.columns(b.Columns)
		o.cells(b.Cells)
	})
}

// writeBook writes a workbook with the title of a block; fill adds its sheets.
func writeBook(w io.Writer, rosterName string, words *templates.Set, title string, fill func(*writing)) error {
	f := excelize.NewFile()
	defer f.Close()
	out := &writing{file: f, words: sheetwords.Of(words), link: (&url.URL{Path: rosterName}).EscapedPath()}
	out.try(f.SetDocProps(&excelize.DocProperties{Creator: "tenback", Title: out.words.Say(title, nil), Language: out.words.Set.Lang()}))
	out.styles()
	fill(out)
	if out.err == nil {
		out.err = out.words.Failure()
	}
	if out.err != nil {
		return out.err
	}
	return f.Write(w)
}

// writing keeps the first error, because every cell could have one.
type writing struct {
	file  *excelize.File
	words *sheetwords.Words
	link  string // to the roster
	begun int    // sheets
	err   error
	// Styles.
	head, text, asked, answer, address int
}

func (o *writing) try(err error) {
	if o.err == nil {
		o.err = err
	}
}

func (o *writing) styles() {
	const textFormat = "@" // so that 7.10 and a text that begins with = stay as they are
	format := textFormat
	style := func(s excelize.Style) int {
		s.CustomNumFmt = &format
		s.Alignment = &excelize.Alignment{WrapText: true, Vertical: "top"}
		id, err := o.file.NewStyle(&s)
		o.try(err)
		return id
	}
	fill := func(colour string) excelize.Fill {
		return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
	}
	line := []excelize.Border{{Type: "bottom", Color: "1D2B33", Style: 1}}
	o.head = style(excelize.Style{Font: &excelize.Font{Bold: true, Color: "1D2B33"}, Fill: fill("E4E9EC"), Border: line})
	o.text = style(excelize.Style{})
	o.asked = style(excelize.Style{Font: &excelize.Font{Bold: true}})
	o.answer = style(excelize.Style{Fill: fill("FFF6D6"), Border: []excelize.Border{{Type: "bottom", Color: "9AA5AB", Style: 1}, {Type: "top", Color: "9AA5AB", Style: 1}}})
	o.address = style(excelize.Style{Font: &excelize.Font{Color: "1F5FA8", Underline: "single"}})
}

// sheet adds a sheet with its header.
func (o *writing) sheet(kind string, fields []field) (name string) {
	name = o.words.Say("questions.sheet."+kind, nil)
	if o.begun++; o.begun == 1 {
		o.try(o.file.SetSheetName(o.file.GetSheetName(0), name))
	} else {
		_, err := o.file.NewSheet(name)
		o.try(err)
	}
	for i, f := range fields {
		letter := grid.Column(i + 1)
		o.put(name, i+1, 1, o.words.Say("questions.head."+f.key, nil), o.head)
		o.try(o.file.SetColWidth(name, letter, letter, f.width))
	}
	landscape, wide, tall, fit := "landscape", 1, 0, true
	o.try(o.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	o.try(o.file.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall}))
	o.try(o.file.SetPanes(name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	if o.err == nil { // the header on each printed page
		o.try(o.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'" + strings.ReplaceAll(name, "'", "''") + "'!$1:$1", Scope: name}))
	}
	return name
}

// lineHeight is that of a line in points, and tallest the most that a row may have.
const lineHeight, tallest = 13.5, 405

// fit makes a row as high as its wrapped texts need; not every program does so by
// itself.
func (o *writing) fit(sheet string, row int, fields []field, texts ...string) {
	lines := 1.0
	for i, text := range texts {
		n := 0.0
		for _, line := range strings.Split(text, "\n") {
			n += math.Ceil(float64(utf8.RuneCountInString(line)+1) / (fields[i].width * 0.9))
		}
		lines = max(lines, n)
	}
	o.try(o.file.SetRowHeight(sheet, row, min(lines*lineHeight+2, tallest)))
}

// put writes a text, which is never a formula.
func (o *writing) put(sheet string, col, row int, text string, style int) {
	at := grid.At(col, row)
	o.try(o.file.SetCellStr(sheet, at, text))
	o.try(o.file.SetCellStyle(sheet, at, at, style))
}

// columns writes the sheet of columns. The drop-down lists are on a hidden sheet:
// a column with choices has a list of its own.
func (o *writing) columns(all []Column) {
	name := o.sheet(columnsSheet, columnFields)
	lists := o.words.Say("questions.sheet.lists", nil)
	_, err := o.file.NewSheet(lists)
	o.try(err)
	known := []string{o.words.Say(ignoreKey, nil)}
	for _, k := range knownHeaders(o.words) {
		known = append(known, k.text)
	}
	width := 0
	list := func(first []string) string {
		width++
		texts := append(append([]string(nil), first...), known...)
		for i, text := range texts {
			o.put(lists, width, i+1, text, o.text)
		}
		block := grid.Range{FirstRow: 1, FirstCol: width, LastRow: len(texts), LastCol: width}
		return "'" + strings.ReplaceAll(lists, "'", "''") + "'!" + block.Absolute()
	}
	general := list(nil)
	for i, c := range all {
		row, style, from, answer := i+2, o.text, general, c.Answer
		if answer == Ignored {
			answer = known[0]
		}
		if c.Why != "" {
			style = o.asked
		}
		if len(c.Choices) > 0 {
			from = list(c.Choices)
		}
		o.put(name, 1, row, c.Sheet, o.text)
		o.put(name, 2, row, c.Letter, o.text)
		o.put(name, 3, row, c.Header, style)
		o.put(name, 4, row, strings.Join(c.Values, between), o.text)
		o.put(name, 5, row, c.ReadAs, style)
		o.put(name, 6, row, answer, o.answer)
		o.put(name, 7, row, c.Why, o.text)
		o.dropDown(name, grid.At(6, row), from)
		o.fit(name, row, columnFields, c.Sheet, c.Letter, c.Header, strings.Join(c.Values, between), c.ReadAs, answer, c.Why)
	}
	if o.err == nil {
		o.try(o.file.SetSheetVisible(lists, false))
	}
}

// dropDown offers a list; another text may be typed as well.
func (o *writing) dropDown(sheet, at, from string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(at)
	v.SetSqrefDropList(from)
	o.try(o.file.AddDataValidation(sheet, v))
}

func (o *writing) cells(all []Cell) {
	name := o.sheet(cellsSheet, cellFields)
	right := o.words.Say(rightKey, nil)
	for i, c := range all {
		row, answer, address := i+2, c.Answer, o.address
		if c.Right {
			answer = right
		}
		if i >= mostLinks {
			address = o.text
		} else {
			o.try(o.file.SetCellHyperLink(name, grid.At(2, row), o.link+"#'"+strings.ReplaceAll(c.Sheet, "'", "''")+"'!"+c.Link, "External"))
		}
		o.put(name, 1, row, c.Sheet, o.text)
		o.put(name, 2, row, c.Cell, address)
		o.put(name, 3, row, c.Person, o.text)
		o.put(name, 4, row, c.Was, o.text)
		o.put(name, 5, row, c.What, o.text)
		o.put(name, 6, row, c.Fix, o.text)
		o.put(name, 7, row, answer, o.answer)
		o.fit(name, row, cellFields, c.Sheet, c.Cell, c.Person, c.Was, c.What, c.Fix, answer)
		if c.MayBeRight {
			v := excelize.NewDataValidation(true)
			v.SetSqref(grid.At(7, row))
			o.try(v.SetDropList([]string{right}))
			o.try(o.file.AddDataValidation(name, v))
		}
	}
}

// clean returns the text of a cell that a person may have typed into.
func clean(r cell.Raw) string {
	if r.Kind == cell.Text {
		return cell.Clean(r.Text)
	}
	return cell.Display(r, false)
}
