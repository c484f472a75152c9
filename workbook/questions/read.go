package questions

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// most is the most lines of a sheet that are read: every problem that a roster may
// list, and its columns.
const most = roster.MaxProblems + grid.MaxCol

// Read reads the questions at path with their answers. Its error names the sheet
// and the cell of an answer that cannot be understood.
func Read(path string, r io.ReaderAt, size int64, password func() (string, error)) (*Book, error) {
	from, err := source.Open(path, r, size, password)
	if err != nil {
		return nil, err
	}
	b := &Book{}
	found := false
	for _, s := range from.Sheets() {
		switch {
		case isWord(s.Name, "questions.sheet."+columnsSheet):
			err = readSheet(path, from, s, columnFields, "answer", b.addColumn)
		case isWord(s.Name, "questions.sheet."+cellsSheet):
			err = readSheet(path, from, s, cellFields, "answer", b.addCell)
		default:
			continue
		}
		found = true
		if err != nil {
			return nil, err
		}
	}
	if !found {
		return nil, fail(path, "", "no sheet of questions is in this file; delete it, and tenback check writes it again")
	}
	return b, nil
}

func fail(path, sheet, why string) error {
	return &source.Error{Path: path, Sheet: sheet, Kind: source.ErrNotWorkbook, Why: why}
}

// readSheet calls take with the texts of each line, by the keys of the fields, and
// the place of the answer.
func readSheet(path string, from source.Book, s ooxml.Sheet, fields []field, answer string, take func(line map[string]string, place string) error) error {
	rows, err := from.Rows(s)
	if err != nil {
		return source.Fail(path, s.Name, err)
	}
	defer rows.Close()
	var keys map[int]string // by column
	for n := 0; rows.Next(); n++ {
		row := rows.Row()
		if n > most {
			return fail(path, s.Name, fmt.Sprintf("there are more than %d lines", most))
		}
		if keys == nil {
			if keys = headers(row, fields); len(keys) < len(fields) {
				return fail(path, s.Name, "its first row is not the headers that tenback wrote; put them back, or delete the file")
			}
			continue
		}
		line := map[string]string{}
		for _, c := range row.Cells {
			if key := keys[c.Col]; key != "" {
				line[key] = clean(c.Raw)
			}
		}
		if len(line) == 0 {
			continue
		}
		for col, key := range keys {
			if key == answer {
				if err := take(line, fmt.Sprintf("%s: %s!%s", filepath.Base(path), s.Name, grid.At(col, row.Number))); err != nil {
					return fail(path, s.Name, grid.At(col, row.Number)+": "+err.Error())
				}
			}
		}
	}
	if err := rows.Err(); err != nil {
		return source.Fail(path, s.Name, err)
	}
	return nil
}

// headers returns the keys of the fields by column.
func headers(row *ooxml.Row, fields []field) map[int]string {
	keys := map[int]string{}
	for _, c := range row.Cells {
		for _, f := range fields {
			if isWord(clean(c.Raw), "questions.head."+f.key) {
				keys[c.Col] = f.key
			}
		}
	}
	return keys
}

func (b *Book) addColumn(line map[string]string, place string) error {
	c := Column{Sheet: line["sheet"], Letter: strings.ToUpper(line["column"]), Header: line["header"], ReadAs: line["read-as"], Why: line["why"], Answer: line["answer"], place: place}
	if line["values"] != "" {
		c.Values = strings.Split(line["values"], between)
	}
	if _, ok := grid.ParseAddress(c.Letter + "1"); !ok && c.Answer == "" {
		return nil
	} else if !ok {
		return fmt.Errorf("%q beside it is not the letter of a column", c.Letter)
	}
	if err := c.Take(c.Answer); err != nil {
		return err
	}
	b.Columns = append(b.Columns, c)
	return nil
}

func (b *Book) addCell(line map[string]string, place string) error {
	at := strings.ToUpper(line["cell"])
	c := Cell{Sheet: line["sheet"], Cell: at, Link: at, Person: line["person"], Was: line["was"], What: line["what"], Fix: line["type"], Answer: line["answer"], place: place}
	if _, ok := grid.ParseAddress(c.Cell); !ok && c.Answer != "" {
		return fmt.Errorf("%q beside it is not the address of a cell; mend this in the roster itself", c.Cell)
	}
	if c.Answer != "" && isWord(c.Answer, rightKey) {
		c.Answer, c.Right = "", true
	}
	c.MayBeRight = c.Right
	b.Cells = append(b.Cells, c)
	return nil
}

// Take takes a typed answer: a known header, the word for ignore in any language,
// or nothing.
func (c *Column) Take(answer string) error {
	if _, ok := heading.Match(answer); ok || answer == "" {
		c.Answer = answer
		return nil
	}
	if isWord(answer, ignoreKey) {
		c.Answer = Ignored
		return nil
	}
	if near, ok := heading.Nearest(answer); ok {
		return fmt.Errorf("%q is not a known column; choose from the list; did you mean %q?", answer, near)
	}
	return fmt.Errorf("%q is not a known column; choose from the list", answer)
}
