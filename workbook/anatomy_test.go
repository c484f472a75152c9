package workbook_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"unicode"
	"unicode/utf8"

	"tenback/workbook"
)

func TestShape(t *testing.T) {
	for text, want := range map[string]string{
		"":                      "",
		"Anna Ray":              "Aa Aa",
		"ANNA O’RAY-LUX":        "A A’A-A",
		"11:30":                 "99:99",
		"0.47916666666666669":   "9.9999…",
		"72 bpm":                "99 a",
		"5'":                    "9'",
		"a\u0301\u200b\u202ebc": "a  a",
		"\x00\x01":              "  ",
		"١٢":                    "99",
	} {
		if got := workbook.Shape(text); got != want {
			t.Errorf("Shape(%q) = %q, not %q", text, got, want)
		}
	}
	long := workbook.Shape("a.b.c.d.e.f.g.h.i.j.k.l.m.n.o.p.q.r.s.t.u.v.w.x.y.z")
	if n := len([]rune(long)); n > 42 {
		t.Errorf("a long text has a shape of %d characters", n)
	}
}

// Every roster of the tests can be dissected, also those that are no rosters.
func TestDissectRosters(t *testing.T) {
	paths, err := filepath.Glob("../testdata/rosters/*.*")
	if err != nil || len(paths) < 40 {
		t.Fatalf("%d rosters, %v", len(paths), err)
	}
	looked := 0
	for _, path := range paths {
		if e := filepath.Ext(path); e != ".xlsx" && e != ".xlsm" && e != ".csv" {
			continue
		}
		a, err := workbook.Dissect(path, nil)
		if err != nil {
			continue // a test of its own says why it can't be opened
		}
		looked++
		cells := 0
		for _, s := range a.Sheets {
			cells += s.Cells
		}
		if cells == 0 || a.Problem != "" {
			t.Errorf("%s: %d cells, %q", path, cells, a.Problem)
		}
	}
	if looked < 30 {
		t.Errorf("only %d rosters could be opened", looked)
	}
}

// FuzzShape: a shape has no letter but A and a and no digit but 9, and is short.
func FuzzShape(f *testing.F) {
	for _, text := range []string{"Anna Ray", "0.479166", "Ǆordan 07.11.1981", "१२३", "\xff\xfe"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		shape := workbook.Shape(text)
		for _, r := range shape {
			if unicode.IsLetter(r) && r != 'A' && r != 'a' || unicode.IsDigit(r) && r != '9' || unicode.IsControl(r) {
				t.Fatalf("%q is shown as %q", text, shape)
			}
		}
		if n := utf8.RuneCountInString(shape); n > 42 {
			t.Errorf("%d characters", n)
		}
	})
}

// FuzzDissect: any file can be dissected or is refused with an error of the
// package.
func FuzzDissect(f *testing.F) {
	small, err := os.ReadFile("../testdata/rosters/sex-codes.xlsx")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(small, true)
	f.Add([]byte("Name;Age\nAda;12\n"), false)
	f.Add([]byte("PK\x03\x04"), true)
	f.Fuzz(func(t *testing.T, data []byte, book bool) {
		path := filepath.Join(t.TempDir(), "roster.csv")
		if book {
			path = filepath.Join(t.TempDir(), "roster.xlsx")
		}
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		a, err := workbook.Dissect(path, nil)
		var known *workbook.OpenError
		if err != nil && !errors.As(err, &known) {
			t.Errorf("%v is no error of this package", err)
		}
		if (err == nil) != (a != nil) {
			t.Error("neither an anatomy nor an error, or both")
		}
	})
}
