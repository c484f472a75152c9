package workbook

import (
	"context"
	"fmt"
	"io"
	"slices"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/source"
	"tenback/workbook/splice"
)

// maxSecretBytes bounds the unpacked size of an encrypted workbook under comparison,
// because all of it stays in memory.
const maxSecretBytes = 1 << 30

// compareOldCells reads both workbooks by a library that had no part in the writing.
// It returns an error that names the first difference in old sheets or values. What
// the library cannot read of the original is not compared: package splice has compared
// all bytes.
// A secret workbook is never unpacked into temporary files.
func compareOldCells(ctx context.Context, before, after source.Plain, edit splice.Edit, secret bool) error {
	options := excelize.Options{RawCellValue: true}
	if secret {
		options.UnzipSizeLimit, options.UnzipXMLSizeLimit = maxSecretBytes, maxSecretBytes
	}
	old, err := excelize.OpenReader(io.NewSectionReader(before, 0, before.Size), options)
	if err != nil {
		return nil
	}
	defer old.Close()
	now, err := excelize.OpenReader(io.NewSectionReader(after, 0, after.Size), options)
	if err != nil {
		return fmt.Errorf("the written workbook does not open: %w", err)
	}
	defer now.Close()
	sheets := old.GetSheetList()
	if got := now.GetSheetList(); !slices.Equal(sheets, got) {
		return fmt.Errorf("the written workbook has the sheets %q instead of %q", got, sheets)
	}
	for _, name := range sheets {
		if err := compareValues(ctx, old, now, name, resultCells(edit, name)); err != nil {
			return err
		}
	}
	return nil
}

// resultCells returns which cells of a sheet results may be written into.
func resultCells(edit splice.Edit, name string) func(row, col int) bool {
	head, ranges := map[int]int{}, []splice.Range(nil) // header rows of new columns; cells of an earlier run
	for _, s := range edit.Sheets {
		if s.Name == name {
			ranges = s.Clear
			for c := range s.Places {
				if row := head[c.Col]; row == 0 || c.Row < row {
					head[c.Col] = c.Row
				}
			}
		}
	}
	return func(row, col int) bool {
		isOld := slices.ContainsFunc(ranges, func(r splice.Range) bool {
			return r.FirstRow <= row && row <= r.LastRow && r.FirstCol <= col && col <= r.LastCol
		})
		return isOld || head[col] > 0 && row >= head[col]
	}
}

// compareValues compares the stored values of a sheet row by row.
func compareValues(ctx context.Context, old, now *excelize.File, name string, ours func(row, col int) bool) error {
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
			return nil
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
			if w != i && !ours(row, col) {
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
