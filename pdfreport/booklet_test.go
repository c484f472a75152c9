package pdfreport_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"unicode/utf16"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
)

// people returns some of the cases. Some groups stand together.
func people(t testing.TB, names ...string) []person.Person {
	t.Helper()
	var all []person.Person
	for _, name := range names {
		all = append(all, cases[name].person(t))
	}
	return all
}

func booklet(t testing.TB, all []person.Person) ([]byte, int) {
	t.Helper()
	var out bytes.Buffer
	pages, err := person.WriteBooklet(&out, "Harbour (week) \\ Ω", all)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), pages
}

// short returns a person whose page is a single one.
func short(t testing.TB) person.Person {
	t.Helper()
	return made{name: "Tim Short", group: "Class 7b", age: 8.2, tests: measured(45), undated: true}.person(t)
}

// TestBooklet: every person begins on an odd page that has the text of their own
// page.
func TestBooklet(t *testing.T) {
	all := people(t, "woman-45", "rest-104", "boy-12-below", "cyrillic", "squad-runner", "work-woman")
	pdf, pages := booklet(t, all)
	byPage := map[int][]textOp{}
	for _, op := range extract(t, pdf) {
		byPage[op.page] = append(byPage[op.page], op)
	}
	at := 1
	for _, p := range all {
		own, report := pageOf(t, p)
		for n := 1; n <= report.Pages; n++ {
			var want []textOp
			for _, op := range extract(t, own) {
				if op.page == n {
					want = append(want, op)
				}
			}
			if got := byPage[at+n-1]; textAlone(got) != textAlone(want) {
				t.Errorf("%s, page %d: %q, alone %q", p.Name, at+n-1, textAlone(got), textAlone(want))
			}
		}
		at += report.Pages + report.Pages%2
	}
	if pages != at-1 {
		t.Errorf("%d pages, want %d", pages, at-1)
	}
}

func textAlone(ops []textOp) string {
	var b strings.Builder
	for _, op := range ops {
		fmt.Fprintf(&b, "%.1f %.1f %.1f %s\n", op.x, op.y, op.size, op.text)
	}
	return b.String()
}

// TestBlankBacks: a single page is followed by a blank one, but not at the end.
func TestBlankBacks(t *testing.T) {
	single := short(t)
	if _, report := pageOf(t, single); report.Pages != 1 {
		t.Fatalf("%d pages; this test needs a single one", report.Pages)
	}
	_, pages := booklet(t, []person.Person{single, cases["woman-45"].person(t), single, single})
	if want := 1 + 1 + 2 + 1 + 1 + 1; pages != want {
		t.Errorf("%d pages, want %d", pages, want)
	}
}

// inUTF16 is a text as in a bookmark.
func inUTF16(text string) []byte {
	out := []byte("(\xfe\xff")
	for _, u := range utf16.Encode([]rune(text)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return append(out, ')')
}

func TestBookmarks(t *testing.T) {
	groups := func(pdf []byte) int { return bytes.Count(pdf, inUTF16("Harbour office")) }
	together, _ := booklet(t, people(t, "woman-45", "man-55", "greek"))
	if groups(together) != 1 || !bytes.Contains(together, inUTF16("Ελευθερία Παπαγεωργίου")) || !bytes.Contains(together, inUTF16("Τμήμα Β΄")) {
		t.Errorf("%d bookmarks of the group, or a name is missing", groups(together))
	}
	apart, _ := booklet(t, people(t, "woman-45", "greek", "man-55"))
	if groups(apart) != 0 || !bytes.Contains(apart, inUTF16("Teodor Brandvik")) {
		t.Errorf("%d bookmarks of a group that does not stand together", groups(apart))
	}
}

func TestBookletErrors(t *testing.T) {
	if _, err := person.WriteBooklet(io.Discard, "x", nil); err == nil {
		t.Error("nobody is printed")
	}
	all := append(people(t, "woman-45"), person.Person{Name: "Nobody", Words: english})
	if _, err := person.WriteBooklet(io.Discard, "x", all); !errors.Is(err, person.ErrNoScore) || !strings.Contains(err.Error(), "Nobody") {
		t.Errorf("error %v", err)
	}
	all[1] = cases["man-55"].person(t)
	all[1].Words = nil
	if _, err := person.WriteBooklet(io.Discard, "x", all); err == nil || !strings.Contains(err.Error(), "Teodor") {
		t.Errorf("error %v", err)
	}
}

// TestBookletMemory bounds the memory for a hundred people by their share of what
// BookletMost documents.
func TestBookletMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("short")
	}
	var all []person.Person
	for i := range 100 {
		p := cases[caseNames()[i%len(cases)]].person(t)
		p.Paper = kit.A4
		all = append(all, p)
	}
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	most := uint64(0)
	_, err := person.WriteBooklet(writerFunc(func(b []byte) (int, error) {
		runtime.GC()
		runtime.ReadMemStats(&after)
		most = max(most, after.HeapAlloc-before.HeapAlloc)
		return len(b), nil
	}), "x", all)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.1f MB for 100 people", float64(most)/(1<<20))
	if most > 12<<20 {
		t.Errorf("%.1f MB for 100 people", float64(most)/(1<<20))
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(b []byte) (int, error) { return f(b) }
