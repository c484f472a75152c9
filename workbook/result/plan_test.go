package result

import (
	"testing"

	"tenback/workbook/grid"
	"tenback/workbook/roster"
	"tenback/workbook/splice"
)

func TestNoRoomAtTheRight(t *testing.T) {
	sheet := &roster.Sheet{Name: "People", HeaderRow: 1, LastCol: grid.MaxCol - 3}
	if err := new(sheetEdit).place(sheet, splice.SheetInfo{FreeCol: 5}, wordsOf(nil), false); err == nil {
		t.Error("columns were placed beyond the edge of the sheet")
	}
}
