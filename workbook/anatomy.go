package workbook

import (
	"cmp"
	"maps"
	"path"
	"slices"
	"strings"
	"unicode"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
)

// Anatomy is how a workbook is built, with nothing in it of what it says: no
// name, no result, no text that someone typed. It is for reports of faults.
type Anatomy struct {
	Bytes    int64
	Text     bool // a text file such as CSV
	Locked   bool // has a password
	Signed   bool
	Date1904 bool
	Program  string         // that wrote the file, such as "Microsoft Excel 16.0300"; empty if the file does not say
	Parts    map[string]int // files in the zip by folder and ending, such as "xl/worksheets/*.xml"
	Sheets   []SheetAnatomy
	Problem  string // why reading ended early; empty if it did not
}

// SheetAnatomy is how a sheet is built.
type SheetAnatomy struct {
	Hidden      bool
	Rows, Cells int
	Merged      int
	Tables      int
	Filtered    bool
	Top         [][]string // shapes of the first rows, header included
	Columns     []ColumnAnatomy
}

// ColumnAnatomy tells in which shapes the cells of a column are written.
type ColumnAnatomy struct {
	Index  int
	Shapes []ShapeCount // the most frequent first
	Other  int          // cells in further shapes
}

// ShapeCount is a shape and how many cells have it.
type ShapeCount struct {
	Shape string
	Count int
}

// Bounds of an Anatomy.
const (
	anatomyTop     = 5
	anatomyColumns = 120
	anatomyShapes  = 6
	anatomySheets  = 40
	anatomyKept    = 200 // shapes counted of a column before the rest is only counted
)

// Dissect tells how the file at path is built. An error is as of [Open]; what
// goes wrong behind the opening is the Anatomy's Problem.
func Dissect(path string, password func() (string, error)) (*Anatomy, error) {
	f, size, err := openFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	roster := &Roster{Path: path}
	book, err := openSource(path, f, size, ReadOptions{Password: password}, roster)
	if err != nil {
		return nil, err
	}
	a := &Anatomy{Bytes: size, Text: roster.In.Text, Locked: roster.Locked(), Signed: roster.Signed, Date1904: book.Date1904()}
	if b, ok := book.(bookSource); ok {
		a.Program = b.Program()
		a.Parts = partKinds(b.PartNames())
	}
	for _, s := range book.Sheets() {
		if len(a.Sheets) == anatomySheets {
			break
		}
		sheet, err := dissectSheet(book, s)
		a.Sheets = append(a.Sheets, sheet)
		if err != nil && a.Problem == "" {
			a.Problem = Shapeless(err.Error())
		}
	}
	return a, nil
}

// partKinds counts the files of the zip by folder and ending. Names of folders
// and files beyond those that every workbook may have say nothing here.
func partKinds(names []string) map[string]int {
	kinds := map[string]int{}
	for _, name := range names {
		folder := path.Dir(name)
		if known := []string{".", "xl", "docProps", "_rels", "customXml", "_xmlsignatures"}; !slices.Contains(known, folder) && !strings.HasPrefix(folder, "xl/") {
			folder = "other"
		}
		kinds[folder+"/*"+strings.ToLower(path.Ext(name))]++
	}
	return kinds
}

func dissectSheet(book source, s ooxml.Sheet) (SheetAnatomy, error) {
	a := SheetAnatomy{Hidden: s.Hidden}
	if !s.Cells {
		return a, nil
	}
	tables, filtered, err := book.Tables(s)
	if err != nil {
		return a, err
	}
	a.Tables, a.Filtered = len(tables), filtered
	rows, err := book.Rows(s)
	if err != nil {
		return a, err
	}
	defer rows.Close()
	columns := map[int]map[string]int{}
	for rows.Next() {
		cells := rows.Row().Cells
		a.Rows++
		var top []string
		for _, c := range cells {
			shape := shapeOf(c.Raw)
			if shape == "" {
				continue
			}
			a.Cells++
			if len(a.Top) < anatomyTop && c.Col <= anatomyColumns {
				top = append(top, grid.At(c.Col, rows.Row().Number)+" "+shape)
			}
			if c.Col > anatomyColumns {
				continue
			}
			if columns[c.Col] == nil {
				columns[c.Col] = map[string]int{}
			}
			if counts := columns[c.Col]; len(counts) < anatomyKept || counts[shape] > 0 {
				counts[shape]++
			} else {
				counts[otherShape]++
			}
		}
		if len(top) > 0 && len(a.Top) < anatomyTop {
			a.Top = append(a.Top, top)
		}
	}
	a.Merged, a.Filtered = len(rows.Merged()), a.Filtered || rows.Filtered()
	for _, index := range slices.Sorted(maps.Keys(columns)) {
		a.Columns = append(a.Columns, columnAnatomy(index, columns[index]))
	}
	return a, rows.Err()
}

// otherShape stands for the shapes beyond those that are told apart; no cell
// has it.
const otherShape = ""

func columnAnatomy(index int, counts map[string]int) ColumnAnatomy {
	c := ColumnAnatomy{Index: index, Other: counts[otherShape]}
	for shape, n := range counts {
		if shape != otherShape {
			c.Shapes = append(c.Shapes, ShapeCount{shape, n})
		}
	}
	slices.SortFunc(c.Shapes, func(a, b ShapeCount) int {
		return cmp.Or(-cmp.Compare(a.Count, b.Count), cmp.Compare(a.Shape, b.Shape))
	})
	if len(c.Shapes) > anatomyShapes {
		for _, s := range c.Shapes[anatomyShapes:] {
			c.Other += s.Count
		}
		c.Shapes = c.Shapes[:anatomyShapes]
	}
	return c
}

// shapeOf says how a cell is written: its kind, the form of its text with a for
// letters and 9 for digits, and its number format. Empty for a blank cell.
func shapeOf(raw cell.Raw) string {
	if raw.IsBlank() {
		return ""
	}
	shape := raw.Kind.String() + " " + Shape(raw.Text)
	if form := raw.Format.String(); form != "" {
		shape += " as " + form
	}
	return shape
}

// shapeRunes bounds the length of a shape, and digitsShown the digits in a row.
const (
	shapeRunes  = 40
	digitsShown = 4
)

// Shape is the form of a text without what it says: A and a stand for one or
// more letters, 9 for a digit, and "9…" for more than four in a row; a sign stays.
func Shape(text string) string {
	var out []rune
	digits := 0
	once := func(r rune) {
		if n := len(out); n == 0 || out[n-1] != r {
			out = append(out, r)
		}
	}
	for _, r := range text {
		if len(out) >= shapeRunes {
			return string(out) + "…"
		}
		if unicode.IsDigit(r) {
			if digits++; digits <= digitsShown {
				out = append(out, '9')
			} else {
				once('…')
			}
			continue
		}
		digits = 0
		switch {
		case unicode.IsUpper(r), unicode.IsTitle(r):
			once('A')
		case unicode.IsLetter(r), unicode.IsMark(r):
			once('a')
		case unicode.IsSpace(r), !unicode.IsPrint(r):
			out = append(out, ' ')
		default:
			out = append(out, r)
		}
	}
	return string(out)
}

// Shapeless is a sentence about a roster without the particulars of it: what is
// quoted, addresses, numbers and months.
func Shapeless(sentence string) string { return wordsAlone(sentence) }
