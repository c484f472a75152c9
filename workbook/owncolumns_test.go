package workbook

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/people"
	"tenback/workbook/result"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
	"tenback/workbook/splice"
)

// scoredSheet is a sheet as a spreadsheet program holds it.
type scoredSheet struct {
	rows  [][]any
	names map[string]int // columns, from 0
}

// program is how a spreadsheet program treats names.
type program struct {
	name        string
	keeps, ties bool // keeps names; ties them to their cells
}

func (p program) String() string { return p.name }

// insert puts a column before another.
func (s *scoredSheet) insert(p program, at int, column []any) {
	for i := range s.rows {
		s.rows[i] = slices.Insert(s.rows[i], at, column[i])
	}
	for name, col := range s.names {
		if p.ties && col >= at {
			s.names[name]++
		}
	}
}

func (s *scoredSheet) remove(p program, at int) (column []any) {
	for i := range s.rows {
		column = append(column, s.rows[i][at])
		s.rows[i] = slices.Delete(s.rows[i], at, at+1)
	}
	for name, col := range s.names {
		if p.ties && col == at {
			delete(s.names, name)
		} else if p.ties && col > at {
			s.names[name]--
		}
	}
	return column
}

func (s *scoredSheet) bytes(t *testing.T, p program) []byte {
	names := ""
	for _, name := range slices.Sorted(maps.Keys(s.names)) {
		if p.keeps {
			names += fmt.Sprintf(`<definedName name="%s" hidden="1">Squad!$%s$1</definedName>`, name, grid.Column(s.names[name]+1))
		}
	}
	if names != "" {
		names = "<definedNames>" + names + "</definedNames>"
	}
	return rosterBook{tabs: []tab{{name: "Squad", rows: s.rows}}, names: names}.bytes(t)
}

// readScored reads a sheet with rows of a width.
func readScored(t *testing.T, book []byte) *scoredSheet {
	t.Helper()
	b, err := ooxml.Open(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	named, err := b.NamedCells("")
	if err != nil {
		t.Fatal(err)
	}
	s := &scoredSheet{names: map[string]int{}}
	for _, c := range named["Squad"] {
		s.names[c.Name] = c.Col - 1
	}
	rows, err := b.Rows(b.Sheets()[0])
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		line := make([]any, 40)
		for _, c := range rows.Row().Cells {
			line[c.Col-1] = c.Text
			if x, err := strconv.ParseFloat(c.Text, 64); err == nil && c.Kind == cell.Number {
				line[c.Col-1] = x
			}
		}
		s.rows = append(s.rows, line)
	}
	return s
}

// scored scores a workbook in memory, each person against a slower run.
func scored(t *testing.T, book []byte) (*Roster, []byte) {
	t.Helper()
	ctx := context.Background()
	r, err := openBook(book, ReadOptions{Today: time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	var outcomes []result.Outcome
	for _, v := range people.Visits(r) {
		o := result.New(&v, &scoring.Options{}, nil)
		o.Report = v.Row.Person.Name + ".pdf"
		now, before := o.Score(&scoring.Options{}), *v.Row
		before.Entry.Trials = []scoring.Trial{{Test: o.Test}}
		before.Entry.Trials[0].Set(scoring.Time, scoring.Q(997, scoring.Seconds), "")
		earlier := scoring.Assess(&before.Entry)
		o.Review = change.ReviewOf([]change.Dated{{Day: v.Row.Entry.Tested.AddDate(0, -6, 0), Score: &earlier}, {Day: v.Row.Entry.Tested, Score: now}})
		outcomes = append(outcomes, o)
	}
	src := source.InMemory(book)
	info, err := splice.Inspect(ctx, src, src.Size)
	if err != nil {
		t.Fatal(err)
	}
	edit, _, err := result.Plan(r, outcomes, &scoring.Options{}, info, src, sheetwords.Of(nil))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := splice.Apply(ctx, src, src.Size, &out, edit); err != nil {
		t.Fatal(err)
	}
	return r, out.Bytes()
}

// read is what was read of the people, in the order of their names.
func read(r *Roster) string {
	var all []string
	for _, row := range r.Sheets[0].Rows {
		line := row.Person.Name + row.Person.Group + fmt.Sprint(len(row.Problems))
		for _, tr := range row.Entry.Trials {
			line += " " + tr.Test.ID
		}
		for in := range scoring.InputCount {
			if v, ok := row.Entry.Get(in); ok && in != scoring.Age {
				line += fmt.Sprint(" ", in, v)
			}
		}
		all = append(all, line)
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// TestOwnColumnsSurvive changes every result column in every way, as programs do that
// move names and programs that don't, and runs again: nothing of ours becomes input,
// no column is written twice, and what the user has stays.
func TestOwnColumnsSurvive(t *testing.T) {
	users := [][]any{
		{"Name", "Sex", "Date of birth", "Test date", "1.5 mile run", "Resting heart rate", "Notes"},
		{"Ada", "F", "1980-03-04", "2026-05-01", "11:31", 61, "left early"},
		{"Ben", "M", "1991-03-04", "2026-05-01", "10:47", 72, "new shoes"},
		{"Cy", "M", "1985-03-04", "2026-05-01", "12:09", 53, nil},
	}
	first, book := scored(t, rosterBook{tabs: []tab{{name: "Squad", rows: users}}}.bytes(t))
	wantRead := read(first)
	notes := []any{"Coach", "x", "y", "z"}
	carries := program{"names carried", true, true}
	leaves := program{"names left behind", true, false}
	loses := program{"names lost", false, false}
	rename := func(header any) func(*scoredSheet, program, int) {
		return func(s *scoredSheet, _ program, at int) { s.rows[0][at] = header }
	}
	changes := []struct {
		name     string
		programs []program
		// second allows the changed column to be the user's afterwards.
		second bool
		change func(s *scoredSheet, p program, at int)
	}{
		{"deleted", []program{carries, loses}, false, func(s *scoredSheet, p program, at int) { s.remove(p, at) }},
		{"deleted, a column put in at the left", []program{leaves}, false, func(s *scoredSheet, p program, at int) {
			s.remove(p, at)
			s.insert(p, 1, notes)
		}},
		{"named Zzz", []program{carries}, false, rename("Zzz")},
		{"named VO2max", []program{carries}, false, rename("VO2max")},
		{"named Group", []program{carries}, false, rename("Group")},
		{"named Body mass", []program{carries}, false, rename("Body mass (kg)")},
		{"named nothing", []program{carries}, false, rename(nil)},
		{"named Zzz in an old file", []program{loses}, true, rename("Zzz")},
		{"moved to the right", []program{carries, loses}, true, func(s *scoredSheet, p program, at int) {
			names := maps.Clone(s.names)
			column := s.remove(p, at)
			s.insert(p, 30, column)
			for name, col := range names {
				if p.ties && col == at {
					s.names[name] = 30
				}
			}
		}},
		{"two columns put in before and one behind, sorted", []program{carries, leaves}, true, func(s *scoredSheet, p program, at int) {
			s.insert(p, at+1, notes)
			s.insert(p, at, notes)
			s.insert(p, 0, notes)
			slices.Reverse(s.rows[1:])
		}},
	}
	for n, id := range resultIDs() {
		for _, c := range changes {
			for _, p := range c.programs {
				s := readScored(t, book)
				c.change(s, p, 7+n)
				before := s.bytes(t, p)
				r, once := scored(t, before)
				what := fmt.Sprintf("%s %s, %v", id, c.name, p)
				if got := read(r); got != wantRead {
					t.Errorf("%s: read\n%s\nwant\n%s", what, got, wantRead)
				}
				now, twice := scored(t, once)
				if !bytes.Equal(once, twice) {
					t.Errorf("%s: the second run wrote something else", what)
				}
				wantOnce(t, what, now, c.second && (!p.keeps || !p.ties))
				wantKept(t, what, s, readScored(t, once), now)
			}
		}
	}
}

func resultIDs() (ids []string) {
	for _, c := range result.Columns(sheetwords.Of(nil)) {
		ids = append(ids, c.ID)
	}
	return ids
}

// wantOnce fails unless each result column is there once.
func wantOnce(t *testing.T, what string, r *Roster, second bool) {
	t.Helper()
	count := map[string]int{}
	headers := map[string]int{}
	for _, c := range r.Sheets[0].Columns {
		if c.Meaning.Role == Ours {
			count[c.Own]++
		} else {
			headers[c.Header]++
		}
	}
	for _, c := range result.Columns(sheetwords.Of(nil)) {
		if count[c.ID] != 1 || headers[c.Header] > 0 && !second {
			t.Errorf("%s: %s is there %d times, and its header %d times more", what, c.ID, count[c.ID], headers[c.Header])
		}
	}
	if len(count) != len(resultIDs()) {
		t.Errorf("%s: there are copies of result columns: %v", what, count)
	}
}

// wantKept fails unless the cells that are not ours are as before.
func wantKept(t *testing.T, what string, before, after *scoredSheet, r *Roster) {
	t.Helper()
	for i, row := range before.rows {
		for col, v := range row {
			own := slices.ContainsFunc(r.Sheets[0].Columns, func(c Column) bool { return c.Index == col+1 && c.Meaning.Role == Ours })
			if !own && v != nil && after.rows[i][col] != v {
				t.Errorf("%s: %s was %v and is %v", what, grid.At(col+1, i+1), v, after.rows[i][col])
			}
		}
	}
}
