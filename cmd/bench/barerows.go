package main

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// bareResults is how many result cells a person gets.
const bareResults = 12

// bareColumns is the bare program of rows: it reads a roster with excelize and
// writes result columns to its right, the way that library's users do. It scores
// nothing: numbers and texts of the usual length stand for the results. It
// returns the names.
func bareColumns(roster, out string) (people []string, err error) {
	f, err := excelize.OpenFile(roster)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	sheet := f.GetSheetName(0)
	rows, err := f.Rows(sheet)
	if err != nil {
		return nil, err
	}
	n := 0
	for rows.Next() {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, err
		}
		if n++; n > 1 {
			people = append(people, cells[0])
		}
	}
	if err := rows.Close(); err != nil {
		return nil, err
	}
	for i := range people {
		for c := range bareResults {
			cell, err := excelize.CoordinatesToCellName(rosterCols+1+c, i+2)
			if err != nil {
				return nil, err
			}
			var value any = float64(i%500) / 10
			if c >= bareResults/3 {
				value = fmt.Sprintf("%d: a result of about the length that ours have", i)
			}
			if err := f.SetCellValue(sheet, cell, value); err != nil {
				return nil, err
			}
		}
	}
	return people, f.SaveAs(out)
}
