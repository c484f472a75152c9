package source

import (
	"strings"
	"testing"
)

func TestSheetNames(t *testing.T) {
	for path, want := range map[string]string{
		"a/week.csv": "week", "Class 8B [new].tsv": "Class 8B  new", "'quoted'.csv": "quoted", ".csv": "Roster", "History.csv": "Roster",
		"tenback columns.csv": "Roster", strings.Repeat("ä", 40) + ".csv": strings.Repeat("ä", 31),
	} {
		if got := sheetName(path); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

func TestFieldText(t *testing.T) {
	for field, want := range map[string]string{`="0417"`: "0417", `="a"b"`: `="a"b"`, `="`: `="`, `=""`: "", `="x`: `="x`, "7": "7"} {
		if got := fieldText(field); got != want {
			t.Errorf("%s reads as %q, want %q", field, got, want)
		}
	}
}
