package starter

import (
	"github.com/xuri/excelize/v2"

	"tenback/workbook/grid"
)

// The look of the sheets that we make: plain, and readable without colour.
const (
	headFill = "E4E9EC"
	headInk  = "1D2B33"
	typeface = "Calibri"
)

// textCell is the number format of cells that stay text when someone edits them.
const textCell = "@"

// addSheet adds a sheet to a new workbook, which has one from the beginning: the
// first that is added takes its place.
func addSheet(f *excelize.File, n int, name string) error {
	if n == 0 {
		return f.SetSheetName(f.GetSheetName(0), name)
	}
	_, err := f.NewSheet(name)
	return err
}

// writeHeader writes a header row, sets the widths, and freezes what is above
// and the first column.
func writeHeader(f *excelize.File, sheet string, row, columns int, column func(i int) (header string, width float64)) error {
	style, err := f.NewStyle(&excelize.Style{
		Font:      &excelize.Font{Family: typeface, Bold: true, Color: headInk},
		Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{headFill}},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"},
		Border:    []excelize.Border{{Type: "bottom", Color: headInk, Style: 1}},
	})
	if err != nil {
		return err
	}
	for i := range columns {
		header, width := column(i)
		cell, letter := grid.At(i+1, row), grid.Column(i+1)
		if err := f.SetCellStr(sheet, cell, header); err != nil {
			return err
		}
		if err := f.SetCellStyle(sheet, cell, cell, style); err != nil {
			return err
		}
		if err := f.SetColWidth(sheet, letter, letter, width); err != nil {
			return err
		}
	}
	if err := f.SetRowHeight(sheet, row, 46); err != nil {
		return err
	}
	if err := fitToWidth(f, sheet); err != nil {
		return err
	}
	return f.SetPanes(sheet, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: row, TopLeftCell: grid.At(2, row+1), ActivePane: "bottomRight"})
}

// fitToWidth makes a sheet print on pages as wide as it is.
func fitToWidth(f *excelize.File, sheet string) error {
	landscape, wide, tall, fit := "landscape", 1, 0, true
	if err := f.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	return f.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall})
}
