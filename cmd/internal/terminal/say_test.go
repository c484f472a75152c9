package terminal

import (
	"runtime"
	"testing"
)

// What is to be typed again must mean the file, whatever it is called.
func TestArgument(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("its shells have other rules, and its names fewer signs")
	}
	for path, want := range map[string]string{
		"week.xlsx":            "week.xlsx",
		"./a-b_c/Übung,2.xlsx": "./a-b_c/Übung,2.xlsx",
		"fitness week.xlsx":    `"fitness week.xlsx"`,
		"week(1)&2;3.xlsx":     `"week(1)&2;3.xlsx"`,
		"it's.xlsx":            `"it's.xlsx"`,
		"$(reboot).xlsx":       "'$(reboot).xlsx'",
		"`reboot` it's.xlsx":   `'` + "`reboot`" + ` it'\''s.xlsx'`,
		`a"b.xlsx`:             `'a"b.xlsx'`,
	} {
		if got := Argument(path); got != want {
			t.Errorf("%s is typed as %s, want %s", path, got, want)
		}
	}
}
