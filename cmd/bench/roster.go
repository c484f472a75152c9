package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"unicode"

	"github.com/xuri/excelize/v2"

	"tenback/cmd/internal/batch"
	"tenback/scoring"
	"tenback/testdata/demo"
	"tenback/workbook"
)

// The rosters are the demo's office over and over, so that they have every test
// and cells as people type them; each person has a name and an ID of their own.
const (
	sourceSheet = "Harbour office"
	rosterCols  = 20
)

// names says whose names a roster has.
type names uint8

const (
	european    names = iota // mixed, in Latin letters and others
	otherScript              // that need another code page than the words of the page
)

// source is what rosters are made from.
type source struct {
	header        []string
	rows          [][]any // of people who are scored
	nameCol       int
	idCol         int
	dateCols      map[int]bool
	given, family []string
}

// readSource takes from the demo the people of the office who are scored and
// the names of all.
func readSource(ctx context.Context, dir string) (*source, error) {
	path := filepath.Join(dir, "demo.xlsx")
	if err := os.WriteFile(path, demo.Roster, 0o600); err != nil {
		return nil, err
	}
	roster, err := workbook.Open(path, workbook.ReadOptions{})
	if err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(demo.Roster))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	s := &source{dateCols: map[int]bool{}}
	for _, o := range batch.Score(roster, scoring.Options{}) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s.addName(o.Row.Person.Name)
		if o.Row.Sheet != sourceSheet || o.LeftOut() || len(o.Problems()) > 0 {
			continue
		}
		if err := s.addRow(f, o.Row.Number); err != nil {
			return nil, err
		}
	}
	head, err := f.GetRows(sourceSheet)
	if err != nil {
		return nil, err
	}
	s.header = head[0]
	for i, h := range s.header {
		switch h {
		case "Name":
			s.nameCol = i
		case "ID":
			s.idCol = i
		case "DOB", "Test date":
			s.dateCols[i] = true
		}
	}
	for i := len(s.header); i < rosterCols; i++ {
		s.header = append(s.header, fmt.Sprintf("Note %d", i))
	}
	return s, nil
}

// addName keeps a name's parts if it is one of Europe's.
func (s *source) addName(name string) {
	given, family, ok := strings.Cut(name, " ")
	plain := func(r rune) bool { return unicode.IsLetter(r) || r == ' ' || r == '-' }
	vietnamese := func(r rune) bool { return r >= 0x1EA0 && r <= 0x1EF9 }
	if ok && strings.IndexFunc(name, func(r rune) bool { return !plain(r) || vietnamese(r) }) < 0 {
		s.given, s.family = append(s.given, given), append(s.family, family)
	}
}

// addRow keeps a row with the kinds of its cells.
func (s *source) addRow(f *excelize.File, number int) error {
	row := make([]any, rosterCols)
	for c := range row {
		cell, err := excelize.CoordinatesToCellName(c+1, number)
		if err != nil {
			return err
		}
		text, err := f.GetCellValue(sourceSheet, cell, excelize.Options{RawCellValue: true})
		if err != nil {
			return err
		}
		kind, err := f.GetCellType(sourceSheet, cell)
		if err != nil {
			return err
		}
		if x, err := strconv.ParseFloat(text, 64); err == nil && kind == excelize.CellTypeUnset {
			row[c] = x
		} else if text != "" {
			row[c] = text
		}
	}
	s.rows = append(s.rows, row)
	return nil
}

// name is the name of person i.
func (s *source) name(i int, who names) string {
	given, family := s.given, s.family
	if who == otherScript {
		given, family = nil, nil
		for at, name := range s.family {
			if strings.IndexFunc(name, func(r rune) bool { return unicode.In(r, unicode.Greek, unicode.Cyrillic) }) >= 0 {
				given, family = append(given, s.given[at]), append(family, name)
			}
		}
	}
	n := len(family)
	name := given[i%n] + " " + family[i/n%n]
	if again := i / n / n; again > 0 { // married
		name += "-" + family[again%n]
	}
	return name
}

// writer writes a roster of n people as a spreadsheet program would, with shared
// texts.
func (s *source) writer(n int, who names) func(io.Writer) error {
	return func(w io.Writer) error { return s.write(w, n, who) }
}

func (s *source) write(w io.Writer, n int, who names) error {
	f := excelize.NewFile()
	defer f.Close()
	const sheet = "Sheet1"
	if err := f.SetSheetRow(sheet, "A1", &s.header); err != nil {
		return err
	}
	for i := range n {
		row := append([]any(nil), s.rows[i%len(s.rows)]...)
		row[s.nameCol], row[s.idCol] = s.name(i, who), fmt.Sprintf("%06d", i+1)
		for c := range row {
			if strings.HasPrefix(s.header[c], "Note ") {
				row[c] = fmt.Sprintf("remark %d", (i*rosterCols+c)%9973)
			}
		}
		if err := f.SetSheetRow(sheet, "A"+strconv.Itoa(i+2), &row); err != nil {
			return err
		}
	}
	day, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	if err != nil {
		return err
	}
	for c := range s.dateCols {
		column, err := excelize.ColumnNumberToName(c + 1)
		if err != nil {
			return err
		}
		if err := f.SetCellStyle(sheet, column+"2", column+strconv.Itoa(n+1), day); err != nil {
			return err
		}
	}
	return f.Write(w)
}
