package workbook

import (
	"context"
	"path/filepath"
	"testing"

	"tenback/scoring"
	"tenback/workbook/result"
	"tenback/workbook/sheetwords"
)

// wantOldCells compares a workbook before and after results were written into it.
func wantOldCells(t *testing.T, roster *Roster, before, after string) {
	t.Helper()
	edit, _, err := result.Plan(roster, nil, &scoring.Options{}, inspect(t, before), onDisk(t, before), sheetwords.Of(nil))
	if err == nil {
		err = compareOldCells(context.Background(), onDisk(t, before), onDisk(t, after), edit, false)
	}
	if err != nil {
		t.Errorf("%s: %v", filepath.Base(after), err)
	}
}
