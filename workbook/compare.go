package workbook

import (
	"context"
	"fmt"
	"io"
	"slices"

	"github.com/xuri/excelize/v2"
)

// compareOldCells reads the workbook before and after with a library that had no
// part in the writing, and returns an error that names the first difference in
// sheets or values. Package verify has compared the bytes.
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
	return nil
}

// maxSecret bounds the unpacked size of a workbook with a password, because all
// of it is compared in memory.
const maxSecret = 1 << 30

// openElsewhere opens a workbook with the spreadsheet library, which puts large
// sheets into temporary files unless they are secret.
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
