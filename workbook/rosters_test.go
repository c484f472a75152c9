package workbook

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/people"
	"tenback/workbook/result"
)

var update = flag.Bool("update", false, "write the rosters of testdata/rosters and what is read from them anew")

const rosterFolder = "../testdata/rosters"

// TestRosters reads rosters as people keep them, each made for a kind of mess,
// and compares what is read with the text beside it. The files are those that
// the list of rosters describes.
func TestRosters(t *testing.T) {
	known := map[string]bool{}
	for _, r := range messyRosters() {
		known[r.name+".xlsx"], known[r.name+".txt"] = true, true
		t.Run(r.name, func(t *testing.T) {
			path := filepath.Join(rosterFolder, r.name+".xlsx")
			made := r.book.bytes(t)
			if *update {
				if err := os.MkdirAll(rosterFolder, 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, made, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			kept, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(kept, made) {
				t.Errorf("the file is not what the list describes; write it with -update")
			}
			got := r.about + "\n\n" + readInFull(path)
			wantFile(t, filepath.Join(rosterFolder, r.name+".txt"), got)
		})
	}
	files, err := os.ReadDir(rosterFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !known[f.Name()] {
			t.Errorf("%s is in the folder and not in the list", f.Name())
		}
	}
}

// wantFile compares a text with that of a file, which -update writes.
func wantFile(t *testing.T, golden, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("read\n%s\nwant\n%s", got, want)
	}
}

// TestDemoReadsBack reads the demonstration rosters: the people are fixed, and
// what is messy on purpose is named.
func TestDemoReadsBack(t *testing.T) {
	for _, name := range []string{"quillhaven", "quillhaven-earlier"} {
		path := filepath.Join("../testdata/demo", name)
		wantFile(t, path+".txt", readInFull(path+".xlsx"))
	}
}

// readInFull writes all that is read from a roster.
func readInFull(path string) string {
	roster, err := Open(path, ReadOptions{Today: testToday})
	if err != nil {
		return "refused: " + strings.TrimPrefix(err.Error(), path+": ") + "\n"
	}
	var b strings.Builder
	for _, s := range roster.Sheets {
		fmt.Fprintf(&b, "%s, header in row %d\n", s.Name, s.HeaderRow)
		for _, c := range s.Columns {
			fmt.Fprintf(&b, "  %s  %q is %s\n", grid.Column(c.Index), c.Header, c.Meaning)
		}
	}
	problems := roster.Problems
	b.WriteString("\npeople\n")
	for _, v := range people.Visits(roster) {
		rows := fmt.Sprintf("%s row %d", v.Sheet.Name, v.Row.Number)
		for _, l := range v.More {
			rows += fmt.Sprintf(" and %s row %d", l.Sheet.Name, l.Row.Number)
		}
		fmt.Fprintf(&b, "  %s: %s\n", rows, personInWords(v.Row))
		for i := range v.Row.Entry.Trials {
			trial := &v.Row.Entry.Trials[i]
			fmt.Fprintf(&b, "      %s: %s\n", trial.Test.ID, valuesInWords(&trial.Values))
		}
		o := result.New(&v, &scoring.Options{}, nil)
		if best := o.Score(&scoring.Options{}).Best(); best != nil {
			fmt.Fprintf(&b, "      scored by %s\n", best.Equation.ID)
		} else {
			b.WriteString("      not scored\n")
		}
		problems = append(problems, o.Problems()...)
	}
	for i, q := range roster.Questions {
		if i == 0 {
			b.WriteString("\nasked\n")
		}
		fmt.Fprintf(&b, "  %s!%s %q: %s\n", q.Sheet, q.Cell, q.Header, q.What)
		for _, c := range q.Choices {
			fmt.Fprintf(&b, "      %s: %s\n", c.Meaning, c.Example)
		}
	}
	blocking := true
	for i, f := range roster.Findings(problems) {
		switch {
		case f.Blocking && i == 0:
			b.WriteString("\nto mend\n")
		case !f.Blocking && blocking:
			b.WriteString("\ngood to know\n")
			blocking = false
		}
		fmt.Fprintf(&b, "  %s", f.Where())
		if f.Read != "" {
			fmt.Fprintf(&b, " %q", f.Read)
		}
		fmt.Fprintf(&b, ": %s", f.What)
		if !f.Fix.IsZero() {
			fmt.Fprintf(&b, " → %s", f.Fix)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func personInWords(row *Row) string {
	s := row.Person.Name
	if row.Person.ID != "" {
		s += " #" + row.Person.ID
	}
	if row.Person.Group != "" {
		s += " of " + row.Person.Group
	}
	s = strings.TrimSpace(s)
	if !row.Entry.Born.IsZero() {
		s += ", born " + row.Entry.Born.Format(time.DateOnly)
	}
	if !row.Entry.Tested.IsZero() {
		s += ", tested " + row.Entry.Tested.Format(time.DateOnly)
	}
	if known := valuesInWords(&row.Entry.Values); known != "" {
		s += "; " + known
	}
	return s
}

func valuesInWords(v *scoring.Values) string {
	var all []string
	for in := range scoring.InputCount {
		q, ok := v.Get(in)
		if !ok {
			continue
		}
		value := strings.TrimSpace(q.String())
		if in == scoring.SexInput {
			value = map[float64]string{0: "female", 1: "male"}[q.Amount]
		}
		all = append(all, fmt.Sprintf("%s %s (%s)", in, value, v.Cell(in)))
	}
	return strings.Join(all, ", ")
}
