package starter

import (
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// Two sheets of one name would be one sheet, and the people of the second would
// stand over those of the first.
func TestNextNames(t *testing.T) {
	for _, c := range []struct{ names, want []string }{
		{[]string{"Squad"}, []string{"Squad"}},
		{[]string{"Spring 2026", "Staff", "Pupils 2026"}, []string{"Next season", "Staff", "Next season 3"}},
		{[]string{"Next season 2", "Pupils 2026"}, []string{"Next season 2", "Next season 3"}},
		{[]string{"Spring 2026", "NEXT SEASON"}, []string{"Next season", "Next season 2"}},
	} {
		var sheets []*nextSheet
		var got []string
		for _, name := range c.names {
			sheets = append(sheets, &nextSheet{name: nextName(name, sheets)})
			got = append(got, sheets[len(sheets)-1].name)
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%q become %q, want %q", c.names, got, c.want)
		}
	}
}

// A damaged number of one person does not keep the others from their next season.
func TestCarryDamagedNumber(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	m := roster.Meaning{Role: roster.InputData, Input: scoring.BenchHeight}
	if err := carry(f, "Sheet1", "A2", m, &roster.Row{}, cell.Raw{Kind: cell.Number, Text: "3o"}, 0, 0); err != nil {
		t.Fatal(err)
	}
	if got, _ := f.GetCellValue("Sheet1", "A2"); got != "3o" {
		t.Errorf("carried %q", got)
	}
}
