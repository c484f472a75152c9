package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tenback/workbook/grid"
)

// An OpenDocument spreadsheet gives the values, complaints and results of the
// workbook that a spreadsheet program made it of.
func TestOpenDocument(t *testing.T) {
	for _, name := range []string{"week", "evening"} {
		t.Run(name, func(t *testing.T) {
			var words, said [2][]string
			var results [2]map[string]string
			for i, ending := range []string{".xlsx", ".ods"} {
				data, err := os.ReadFile(filepath.Join("ods", "testdata", name+ending))
				if err != nil {
					t.Fatal(err)
				}
				path := writeFile(t, name+ending, data)
				roster := mustOpen(t, path)
				said[i] = complaints(roster)
				sheet := roster.Sheets[0]
				for r := range sheet.Rows {
					words[i] = append(words[i], inWords(&sheet.Rows[r]))
				}
				dst := filepath.Join(filepath.Dir(path), name+"-scored.xlsx")
				mustWrite(t, path, dst, WriteOptions{})
				results[i] = cellsOf(t, dst, sheet.Name)
				maps.DeleteFunc(results[i], func(at, _ string) bool {
					a, _ := grid.ParseAddress(at)
					return a.Col <= sheet.LastCol
				})
			}
			if !slices.Equal(words[0], words[1]) || !slices.Equal(said[0], said[1]) || !maps.Equal(results[0], results[1]) {
				t.Errorf(".xlsx %q %q %q\n.ods %q %q %q", words[0], said[0], results[0], words[1], said[1], results[1])
			}
			if len(words[0]) != 5 || len(results[0]) < 20 {
				t.Errorf("%d rows, %d result cells", len(words[0]), len(results[0]))
			}
		})
	}
}

// What tenback writes beside a template is no template.
func TestTemplate(t *testing.T) {
	const ofTemplate, ofBook = "spreadsheetml.template.main+xml", "spreadsheetml.sheet.main+xml"
	book, err := os.ReadFile(testWorkbook(t))
	if err != nil {
		t.Fatal(err)
	}
	path := writeFile(t, "roster.xltx", withTypes(t, book, ofBook, ofTemplate))
	dst := filepath.Join(filepath.Dir(path), "roster-scored.xlsx")
	mustWrite(t, path, dst, WriteOptions{})
	written, err := os.ReadFile(dst)
	if err != nil {
		t.Fatal(err)
	}
	if again := withTypes(t, written, ofTemplate, ""); !bytes.Equal(again, withTypes(t, written, "", "")) {
		t.Error("the results are a template")
	}
}

// withTypes returns a workbook in whose list of types one text replaces another.
func withTypes(t *testing.T, book []byte, was, is string) []byte {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range r.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		if f.Name == "[Content_Types].xml" {
			data = []byte(strings.Replace(string(data), was, is, 1))
		}
		out, err := w.Create(f.Name)
		if err == nil {
			_, err = out.Write(data)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
