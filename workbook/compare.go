package workbook

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/xml"
	"errors"
	"fmt"
	"hash"
	"io"
	"path"
	"slices"

	"github.com/xuri/excelize/v2"
)

// compareOldCells opens the workbook as it was and as it was written, by means
// that had no part in the writing, and returns an error that names the first
// difference in what was there before: sheets, values, formulas.
func compareOldCells(ctx context.Context, before, after workbookFile, edits []sheetEdit) error {
	old, err := before.openElsewhere()
	if err != nil {
		return err
	}
	defer old.Close()
	now, err := after.openElsewhere()
	if err != nil {
		return fmt.Errorf("the written workbook does not open: %w", err)
	}
	defer now.Close()
	sheets := old.GetSheetList()
	if got := now.GetSheetList(); !slices.Equal(sheets, got) {
		return fmt.Errorf("the written workbook has the sheets %q instead of %q", got, sheets)
	}
	for _, name := range sheets {
		var edit *sheetEdit
		for i := range edits {
			if edits[i].name == name {
				edit = &edits[i]
			}
		}
		if err := compareValues(ctx, old, now, name, edit); err != nil {
			return err
		}
	}
	return compareFormulas(ctx, before, after)
}

// maxSecret bounds the unpacked size of a workbook with a password that is
// compared, for all of it is in memory.
const maxSecret = 1 << 30

// openElsewhere opens a workbook by means of the spreadsheet library. That one
// puts large sheets into temporary files, unless they are secret.
func (w workbookFile) openElsewhere() (*excelize.File, error) {
	options := excelize.Options{RawCellValue: true}
	if w.secret {
		options.UnzipSizeLimit, options.UnzipXMLSizeLimit = maxSecret, maxSecret
	}
	return excelize.OpenReader(io.NewSectionReader(w, 0, w.size), options)
}

// compareValues compares the stored values of a sheet row by row.
func compareValues(ctx context.Context, old, now *excelize.File, name string, edit *sheetEdit) error {
	was, err := old.Rows(name)
	if err != nil {
		return nil // a sheet that is a chart has no cells
	}
	defer was.Close()
	is, err := now.Rows(name)
	if err != nil {
		return fmt.Errorf("sheet %q of the written workbook does not open: %w", name, err)
	}
	defer is.Close()
	for row := 1; ; row++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		wasCells, wasMore, err := nextRow(was)
		if err != nil {
			return fmt.Errorf("sheet %q, row %d: %w", name, row, err)
		}
		isCells, isMore, err := nextRow(is)
		if err != nil {
			return fmt.Errorf("sheet %q of the written workbook, row %d: %w", name, row, err)
		}
		if !wasMore && !isMore {
			return nil
		}
		for col := 1; col <= max(len(wasCells), len(isCells)); col++ {
			w, i := cellAt(wasCells, col), cellAt(isCells, col)
			if w != i && (edit == nil || !edit.owns(row, col)) {
				cell, _ := excelize.CoordinatesToCellName(col, row)
				return fmt.Errorf("cell %s of sheet %q would change from %q to %q", cell, name, w, i)
			}
		}
	}
}

func nextRow(rows *excelize.Rows) (cells []string, more bool, err error) {
	if !rows.Next() {
		return nil, false, rows.Error()
	}
	cells, err = rows.Columns()
	return cells, true, err
}

// cellAt is the text in a 1-based column of a row as read.
func cellAt(cells []string, col int) string {
	if col < 1 || col > len(cells) {
		return ""
	}
	return cells[col-1]
}

// compareFormulas holds the formulas of all sheets to be the same ones in the
// same cells. Result cells never hold a formula, so nothing is exempt.
func compareFormulas(ctx context.Context, before, after workbookFile) error {
	was, err := formulaDigests(ctx, before)
	if err != nil {
		return err
	}
	is, err := formulaDigests(ctx, after)
	if err != nil {
		return fmt.Errorf("the written workbook: %w", err)
	}
	for name, digest := range was {
		if is[name] != digest {
			return fmt.Errorf("the formulas in part %s would change", name)
		}
	}
	return nil
}

// formulaDigests sums up the formulas of each part that may be a sheet.
func formulaDigests(ctx context.Context, file workbookFile) (map[string][sha256.Size]byte, error) {
	z, err := zip.NewReader(file, file.size)
	if err != nil {
		return nil, err
	}
	digests := map[string][sha256.Size]byte{}
	for _, part := range z.File {
		if path.Ext(part.Name) != ".xml" || path.Base(path.Dir(part.Name)) != "worksheets" {
			continue
		}
		sum := sha256.New()
		if err := digestFormulas(ctx, part, sum); err != nil {
			return nil, fmt.Errorf("part %s: %w", part.Name, err)
		}
		digests[part.Name] = [sha256.Size]byte(sum.Sum(nil))
	}
	return digests, nil
}

// digestFormulas adds each formula, its attributes and its cell to sum.
func digestFormulas(ctx context.Context, part *zip.File, sum hash.Hash) error {
	r, err := part.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	tokens := xml.NewDecoder(r)
	tokens.CharsetReader = func(string, io.Reader) (io.Reader, error) {
		return nil, errors.New("the sheet is not stored in UTF-8")
	}
	var cell string
	inFormula := false
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		token, err := tokens.RawToken()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if t.Name.Local == "c" {
				cell = ""
				for _, a := range t.Attr {
					if a.Name.Local == "r" {
						cell = a.Value
					}
				}
			}
			if inFormula = t.Name.Local == "f"; inFormula {
				fmt.Fprintf(sum, "\n%s %q ", cell, t.Attr)
			}
		case xml.EndElement:
			inFormula = false
		case xml.CharData:
			if inFormula {
				sum.Write(t)
			}
		}
	}
}
