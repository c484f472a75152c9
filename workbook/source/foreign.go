package source

import (
	"archive/zip"
	"bytes"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"tenback/workbook/ods"
	"tenback/workbook/opc"
)

const (
	odsEnding      = ".ods"
	templateEnding = ".xltx"
)

func ending(path string) string { return strings.ToLower(filepath.Ext(path)) }

func isText(path string) bool { return slices.Contains([]string{".csv", ".tsv", ".txt"}, ending(path)) }

// Foreign returns by the ending what a roster is if its results go into a new .xlsx
// workbook beside it, else "".
func Foreign(path string) string {
	switch {
	case isText(path):
		return "a text file"
	case ending(path) == odsEnding:
		return "an OpenDocument spreadsheet"
	case ending(path) == templateEnding:
		return "a template"
	}
	return ""
}

// ofSpreadsheet returns the workbook that is made of an OpenDocument spreadsheet.
func ofSpreadsheet(r io.ReaderAt, size int64) ([]byte, error) {
	var b bytes.Buffer
	err := ods.Convert(&b, r, size)
	return b.Bytes(), err
}

// ofTemplate returns the template as a workbook: the same parts but for the content
// type.
func ofTemplate(r io.ReaderAt, size int64) ([]byte, error) {
	p, err := opc.Open(r, size, opc.Default)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	types := p.Part("[Content_Types].xml")
	for _, part := range p.Parts {
		if part != types {
			if err := w.Copy(part.File); err != nil {
				return nil, err
			}
			continue
		}
		data, err := p.Load(types)
		if err != nil {
			return nil, err
		}
		entry, err := w.Create(types.Name)
		if err != nil {
			return nil, err
		}
		if _, err := entry.Write(bytes.ReplaceAll(data, []byte("spreadsheetml.template.main+xml"), []byte("spreadsheetml.sheet.main+xml"))); err != nil {
			return nil, err
		}
	}
	err = w.Close()
	return b.Bytes(), err
}
