package workbook_test

import (
	"path/filepath"
	"testing"

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
