package pdfreport

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var renderDir = flag.String("render", "", "folder to write every case's page to, to look at")

// TestRender writes the pages for looking at:
//
//	go test ./pdfreport -run TestRender -render /tmp/pages
func TestRender(t *testing.T) {
	if *renderDir == "" {
		t.Skip("no -render folder given")
	}
	for name, m := range cases {
		file, err := os.Create(filepath.Join(*renderDir, name+".pdf"))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := WritePerson(file, m.person(t)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
