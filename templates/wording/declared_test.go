package wording

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the English words of what is declared")

// TestDeclaredIsUpToDate: the English words are those of the declarations.
func TestDeclaredIsUpToDate(t *testing.T) {
	name := filepath.Join("..", "en", DeclaredFile)
	want := Declared()
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
		t.Errorf("%s is not what package scoring declares; write it anew with go test ./templates/wording -update, and translate what changed", name)
	}
}
