package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"tenback/testdata/demo"
	"tenback/workbook"
)

// No name, ID, group or sheet of any test roster is found in what doctor prints
// of it.
func TestDoctorNamesNobody(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/rosters/*.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	town := filepath.Join(t.TempDir(), "demo.xlsx")
	if err := os.WriteFile(town, demo.Roster, 0o600); err != nil {
		t.Fatal(err)
	}
	word := regexp.MustCompile(`\p{Lu}[\p{L}\p{M}]{3,}|\d{4,}`)
	secrets := 0
	for _, path := range append(paths, town) {
		roster, err := workbook.Open(path, workbook.ReadOptions{})
		if err != nil {
			continue // doctor says why; there is nobody in it to name
		}
		var out, errs bytes.Buffer
		named := filepath.Join(t.TempDir(), "Class of Quorbinda.xlsx")
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(named, data, 0o600); err != nil {
			t.Fatal(err)
		}
		run(context.Background(), []string{"tenback", "doctor", named}, &out, &errs)
		if !strings.Contains(out.String(), ", header in row ") {
			t.Fatalf("%s: %s%s", path, out.String(), errs.String())
		}
		printed := map[string]bool{}
		for _, w := range word.FindAllString(out.String()+errs.String(), -1) {
			printed[w] = true
		}
		texts := []string{"Quorbinda"}
		for _, s := range roster.Sheets {
			texts = append(texts, s.Name)
			for _, r := range s.Rows {
				texts = append(texts, r.Person.Name, r.Person.ID, r.Person.Group)
			}
		}
		for _, text := range texts {
			for _, w := range word.FindAllString(text, -1) {
				if secrets++; printed[w] {
					t.Errorf("%s: doctor prints %q", path, w)
				}
			}
		}
	}
	if secrets < 200 {
		t.Errorf("only %d words were looked for", secrets)
	}
}

// What is wrong with a file is told without its name.
func TestDoctorOfNoRoster(t *testing.T) {
	var out, errs bytes.Buffer
	status := run(context.Background(), []string{"tenback", "doctor", "testdata/Ada Quill.xlsx"}, &out, &errs)
	if text := out.String() + errs.String(); status != statusFailed || strings.Contains(text, "Quill") || !utf8.ValidString(text) {
		t.Errorf("status %d: %s", status, text)
	}
}
