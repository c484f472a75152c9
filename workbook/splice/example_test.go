package splice_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/splice"
)

// A column is added right of everything on a sheet, under a header that looks
// like the one beside it.
func Example() {
	f := excelize.NewFile()
	defer f.Close()
	for cell, row := range map[string][]any{"A1": {"Name", "Distance (m)"}, "A2": {"Sample Person", 2100}} {
		if err := f.SetSheetRow("Sheet1", cell, &row); err != nil {
			fmt.Println(err)
			return
		}
	}
	var roster bytes.Buffer
	if err := f.Write(&roster); err != nil {
		fmt.Println(err)
		return
	}

	ctx := context.Background()
	in := bytes.NewReader(roster.Bytes())
	info, err := splice.Inspect(ctx, in, in.Size())
	if err != nil {
		fmt.Println(err)
		return
	}
	col := info.Sheets[0].FreeCol
	edit := splice.Edit{
		Styles: []splice.Style{{Like: splice.Address{Row: 1, Col: col - 1}}, {NumberFormat: "0.0"}},
		Sheets: []splice.Sheet{{
			Name: "Sheet1",
			Cells: slices.Values([]splice.Cell{
				{Row: 1, Col: col, Kind: splice.Text, Text: "Result", Style: 1},
				{Row: 2, Col: col, Kind: splice.Number, Number: 35.65, Style: 2},
			}),
			Widths: map[int]float64{col: 12},
		}},
	}
	var copied bytes.Buffer
	if _, err := splice.Apply(ctx, in, in.Size(), &copied, edit); err != nil {
		fmt.Println(err)
		return
	}
	out := bytes.NewReader(copied.Bytes())
	if err := splice.Verify(ctx, in, in.Size(), out, out.Size(), edit); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("column", col, "added")
	// Output: column 3 added
}
