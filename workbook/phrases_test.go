package workbook

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"tenback/templates/wording"
)

// saidComment heads the English words of what is said of rosters.
const saidComment = "Code generated from package workbook by go test ./workbook -run TestPhrases -update. DO NOT EDIT.\n" +
	"What is said of a roster and its cells: why something could not be used, and what to\n" +
	"type instead. Translate all, and keep the slots. Some phrases are put into others."

// TestPhrasesAreUpToDate: the English words are those of the declarations.
func TestPhrasesAreUpToDate(t *testing.T) {
	name := filepath.Join("..", "templates", "en", "roster.tmpl")
	want := wording.Phrases(saidComment, Phrases())
	if *update {
		if err := os.WriteFile(name, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what the packages declare; write it anew with go test ./workbook -run TestPhrases -update, and translate what changed", name)
	}
}
