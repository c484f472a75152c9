package mail

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"tenback/cmd/internal/personkey"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/cell"
)

var today = time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC)

// class is a sheet of people and the folder of their pages.
type class struct {
	rules  Rules
	roster *workbook.Roster
}

func newClass(t *testing.T) *class {
	t.Helper()
	folder := t.TempDir()
	secret, err := personkey.LoadOrMake(folder)
	if err != nil {
		t.Fatal(err)
	}
	return &class{
		rules:  Rules{Secret: secret, Folder: folder, Today: today, Audience: func(o *workbook.Outcome) templates.Audience { return templates.Audience(o.Row.Person.Audience) }},
		roster: &workbook.Roster{Sheets: []*workbook.Sheet{{Name: "P"}}}}
}

// add adds a person and the page of the row, then calls change on the row.
func (c *class) add(t *testing.T, id, name, born string, change func(*workbook.Row)) {
	t.Helper()
	sheet := c.roster.Sheets[0]
	n := len(sheet.Rows) + 2
	row := workbook.Row{Sheet: "P", Number: n, Person: workbook.Person{ID: id, Name: name, NameCell: fmt.Sprint("B", n)}, Report: name + ".pdf"}
	row.Person.Contact = &workbook.Contact{Email: workbook.Typed{Text: fmt.Sprintf("p%d@river.example", n), Cell: fmt.Sprint("P!C", n)}}
	if born != "" {
		row.Entry.Born, _ = time.Parse(time.DateOnly, born)
	}
	c.page(t, row.Report, c.rules.Secret.Of(&row))
	if change != nil {
		change(&row)
	}
	sheet.Rows = append(sheet.Rows, row)
}

// page writes a page with the key whose.
func (c *class) page(t *testing.T, name string, whose personkey.Key) {
	t.Helper()
	e := &scoring.Entry{}
	e.Set(scoring.Age, scoring.Q(30, scoring.Years), "")
	trial := scoring.Trial{Test: fieldtests.Measured}
	trial.Set(scoring.MeasuredVO2, scoring.Q(40, scoring.MLPerKgMin), "")
	e.Trials = []scoring.Trial{trial}
	score := scoring.Assess(e)
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if _, err := person.Write(&page, person.Person{Name: name, Score: &score, Words: words, Program: "test", Key: string(whose)}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(c.rules.Folder, name), page.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

var guardian = workbook.Typed{Text: "ma@river.example", Cell: "P!D9"}

func aged(years float64) func(*workbook.Row) {
	return func(r *workbook.Row) { r.Entry.Set(scoring.Age, scoring.Q(years, scoring.Years), "") }
}

// The address of one person's page, or the reason why it does not go.
func TestChoose(t *testing.T) {
	for _, tt := range []struct {
		name   string
		id     string
		born   string
		change func(*workbook.Row)
		rules  func(*Rules)
		want   string // address, or what the refusal says
	}{
		{name: "of age", born: "2008-05-11", want: "p2@river.example"},
		{name: "18 tomorrow", born: "2008-05-12", want: "under 18"},
		{name: "18 since the test", born: "2008-05-11", change: aged(17.9), want: "p2@river.example"},
		{name: "17 by the age that was typed", change: aged(17.9), want: "under 18"},
		{name: "with a guardian", born: "2012-01-01", change: func(r *workbook.Row) { r.Person.Contact.Guardian = guardian }, want: "ma@river.example (guardian)"},
		{name: "direct, with a guardian", born: "2012-01-01", change: func(r *workbook.Row) { r.Person.Contact.Guardian = guardian },
			rules: func(r *Rules) { r.AllowDirect = true }, want: "ma@river.example (guardian)"},
		{name: "direct", born: "2012-01-01", rules: func(r *Rules) { r.AllowDirect = true }, want: "p2@river.example"},
		{name: "of age, with a guardian", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Guardian = guardian }, want: "p2@river.example"},
		{name: "of age, with a guardian alone", born: "2000-01-01", change: func(r *workbook.Row) {
			r.Person.Contact = &workbook.Contact{Guardian: guardian}
		}, want: "there is no e-mail address"},
		{name: "of unknown age", want: "the age is not known"},
		{name: "of unknown age, at work", change: func(r *workbook.Row) { r.Person.Audience = workbook.Setting("workplace") }, want: "p2@river.example"},
		{name: "of unknown age, with a guardian", change: func(r *workbook.Row) { r.Person.Contact.Guardian = guardian }, want: "ma@river.example (guardian)"},
		{name: "tested in the future", born: "2000-01-01", change: func(r *workbook.Row) {
			_, doubt := cell.ParseDate(cell.Raw{Kind: cell.Text, Text: "2026-05-12"}, cell.DateContext{Latest: today})
			r.Problems = []workbook.Problem{{What: doubt.What}}
		}, want: "a date of this person is in the future"},
		{name: "two addresses", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Email.Other = "Q!C7" }, want: "P!C2 (\"p2@river.example\"): another address of this person is in Q!C7"},
		{name: "no address to read", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Email.Text = "ida@river" }, want: "P!C2 (\"ida@river\")"},
		{name: "header injection", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Email.Text = "ida@river.example\r\nBcc: thief@x.example" }, want: "P!C2"},
		{name: "no page", born: "2000-01-01", change: func(r *workbook.Row) { r.Report = "" }, want: "has no page"},
		{name: "a page that is gone", born: "2000-01-01", change: func(r *workbook.Row) { r.Report = "Gone.pdf" }, want: "no longer in the folder"},
		{name: "a path", born: "2000-01-01", change: func(r *workbook.Row) { r.Report = "../x.pdf" }, want: "is not the file name of a page"},
		{name: "a Windows path", born: "2000-01-01", change: func(r *workbook.Row) { r.Report = `C:\x.pdf` }, want: "is not the file name of a page"},
		{name: "the secret", born: "2000-01-01", change: func(r *workbook.Row) { r.Report = personkey.SecretFile }, want: "is not the file name of a page"},
		{name: "a name that fills a cell", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Name = strings.Repeat("&", 32767) }, want: "longer than 200 characters"},
		{name: "a name changed since", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Name = "Another" }, want: "made for somebody else"},
		{name: "a date of birth changed since", born: "2000-01-01", change: func(r *workbook.Row) { r.Entry.Born = today.AddDate(-30, 0, 0) }, want: "made for somebody else"},
		{name: "an ID changed since", id: "7", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.ID = "8" }, want: "made for somebody else"},
		{name: "a short password", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Password = workbook.Typed{Text: "riverx7", Cell: "P!E2"} },
			rules: func(r *Rules) { r.Lock = true }, want: "P!E2: the password is shorter"},
		{name: "a date for a password", born: "2000-01-01", change: func(r *workbook.Row) {
			r.Person.Contact.Password = workbook.Typed{Text: "2010-05-01", Cell: "P!E2", IsDate: true}
		}, rules: func(r *Rules) { r.Lock = true }, want: "P!E2: the spreadsheet converted the password to a date"},
		{name: "a short password that is not used", born: "2000-01-01", change: func(r *workbook.Row) { r.Person.Contact.Password = workbook.Typed{Text: "riverx7", Cell: "P!E2"} }, want: "p2@river.example"},
	} {
		c := newClass(t)
		c.add(t, tt.id, "Ida Calloway", tt.born, tt.change)
		c.add(t, "99", "Someone Else", "1990-01-01", nil)
		if tt.rules != nil {
			tt.rules(&c.rules)
		}
		items, left, err := c.rules.Choose(c.roster)
		if err != nil || len(items)+len(left) != 2 {
			t.Fatalf("%s: %d items, %d left, %v", tt.name, len(items), len(left), err)
		}
		if len(items) == 2 {
			got := items[0].To
			if items[0].Guardian {
				got += " (guardian)"
			}
			if got != tt.want {
				t.Errorf("%s: to %s, want %s", tt.name, got, tt.want)
			}
			continue
		}
		got := left[0].Problem.String()
		if !strings.Contains(got, tt.want) || left[0].Problem.Cell == "" || strings.Contains(got, "riverx7") {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

// Pages of people who cannot be distinguished do not go.
func TestChooseTellsApart(t *testing.T) {
	c := newClass(t)
	adult := func(r *workbook.Row) { r.Entry.Set(scoring.Age, scoring.Q(30, scoring.Years), "") }
	c.add(t, "", "Ida Calloway", "", adult)
	c.add(t, "", "Ida Calloway", "", adult)
	c.add(t, "1", "Wren", "", func(r *workbook.Row) { adult(r); r.Report = "Shared.pdf" })
	c.add(t, "2", "Tarn", "", func(r *workbook.Row) { adult(r); r.Report = "shared.pdf" })
	c.add(t, "3", "Moss", "", adult)
	items, left, err := c.rules.Choose(c.roster)
	if err != nil || len(items) != 1 || items[0].Name != "Moss" {
		t.Errorf("%d items, %v", len(items), err)
	}
	for i, want := range []string{"another person has the same name", "another person has the same name", "to several people", "to several people"} {
		if !strings.Contains(left[i].Problem.What.String(), want) {
			t.Errorf("%d: %v", i, left[i].Problem)
		}
	}
	if _, _, err := c.rules.Choose(&workbook.Roster{}); err == nil {
		t.Error("nobody has a page, and that is no error")
	}
}

// A page may be exchanged between choosing and sending.
func TestReadChecksAgain(t *testing.T) {
	c := newClass(t)
	c.add(t, "1", "Ida Calloway", "1981-03-04", nil)
	items, _, err := c.rules.Choose(c.roster)
	if err != nil || len(items) != 1 {
		t.Fatal(err)
	}
	item := &items[0]
	path := filepath.Join(c.rules.Folder, item.Page)
	sound, err := item.Read(c.rules.Folder)
	if err != nil {
		t.Fatal(err)
	}
	for name, exchange := range map[string]func(){
		"another's":           func() { c.page(t, item.Page, "00ff") },
		"another of the same": func() { _ = os.WriteFile(path, append(bytes.Clone(sound), '\n'), 0o600) },
		"no PDF":              func() { _ = os.WriteFile(path, []byte("hello"), 0o600) },
		"gone":                func() { _ = os.Remove(path) },
		"a folder":            func() { _ = os.Mkdir(path, 0o700) },
	} {
		_ = os.RemoveAll(path)
		exchange()
		if _, err := item.Read(c.rules.Folder); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if runtime.GOOS != "windows" {
		elsewhere := filepath.Join(t.TempDir(), "page.pdf")
		_ = os.RemoveAll(path)
		if err := os.WriteFile(elsewhere, sound, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(elsewhere, path); err != nil {
			t.Fatal(err)
		}
		if _, err := item.Read(c.rules.Folder); err == nil {
			t.Error("a link was followed")
		}
	}
}

func TestShared(t *testing.T) {
	items := []Item{{To: "Ma@x.example", Key: "a"}, {To: "ma@x.example", Key: "b"}, {To: "pa@x.example", Key: "c"}, {To: "pa@x.example", Key: "c"}}
	var out strings.Builder
	if printShared(&out, items); out.String() != "Note      Ma@x.example gets the pages of 2 people, in one message each\n" {
		t.Error(out.String())
	}
}

// Drafts removes only its own messages.
func TestDrafts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "outbox")
	open := func() *Drafts {
		f, err := OpenDrafts(path)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := open()
	pages := map[string]personkey.Key{"Ida.pdf": "a", "Ben.pdf": "b", "Cyd.pdf": "c"}
	if err := f.Expect(pages); err != nil {
		t.Fatal(err)
	}
	for page := range pages {
		if err := f.Add(page, []byte(page)); err != nil {
			t.Fatal(err)
		}
	}
	own := filepath.Join(path, "Own.eml")
	if err := os.WriteFile(own, []byte("own"), 0o600); err != nil {
		t.Fatal(err)
	}
	names := func() string {
		all, err := filepath.Glob(filepath.Join(path, "*.eml"))
		if err != nil {
			t.Fatal(err)
		}
		for i := range all {
			all[i] = filepath.Base(all[i])
		}
		slices.Sort(all)
		return strings.Join(all, " ")
	}
	f = open()
	if removed, err := f.Keep(map[string]personkey.Key{"Ida.pdf": "a", "Ben.pdf": "b"}); err != nil || fmt.Sprint(removed) != "[Cyd.eml]" || names() != "Ben.eml Ida.eml Own.eml" {
		t.Errorf("kept %s, removed %v, %v", names(), removed, err)
	}
	if err := open().Expect(map[string]personkey.Key{"Ida.pdf": "a", "Dan.pdf": "d"}); err != nil || names() != "Ben.eml Ida.eml Own.eml" {
		t.Errorf("expecting what is there: %s, %v", names(), err)
	}
	if err := open().Expect(map[string]personkey.Key{"Ben.pdf": "e"}); err != nil || names() != "Ida.eml Own.eml" || fmt.Sprint(open().Of("e"), open().Of("d")) != "[Ben.eml] [Dan.eml]" {
		t.Errorf("a page that is another's now: %s, %v", names(), err)
	}
	if err := open().Add("Ben.pdf", []byte("Ben.pdf")); err != nil {
		t.Fatal(err)
	}
	f = open()
	if got := fmt.Sprint(f.Of("a")); got != "[Ida.eml]" {
		t.Errorf("of a: %s", got)
	}
	if err := f.Forget("a"); err != nil || names() != "Ben.eml Own.eml" || len(f.Of("a")) != 0 {
		t.Errorf("after forgetting %s, %v", names(), err)
	}
	if runtime.GOOS != "windows" {
		for name, want := range map[string]os.FileMode{path: 0o700, filepath.Join(path, "Ben.eml"): 0o600, filepath.Join(path, indexFile): 0o600} {
			if info, err := os.Stat(name); err != nil || info.Mode().Perm() != want {
				t.Errorf("%s: %v, %v", name, info.Mode(), err)
			}
		}
	}
	for _, text := range []string{"rubbish", "", "null", `{"../outside.eml":"z"}`, `{"sub/Ida.eml":"z"}`, `{"":"z"}`, `{"roster.xlsx":"z"}`} {
		if err := os.WriteFile(filepath.Join(path, indexFile), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := OpenDrafts(path); err == nil || !strings.Contains(err.Error(), "cannot be used") {
			t.Errorf("the index %q was taken: %v", text, err)
		}
	}
}

// FuzzReadIndex: any index names only messages in the folder itself.
func FuzzReadIndex(f *testing.F) {
	for _, text := range []string{`{"Ida.eml":"a"}`, `{}`, "null", `{"../Ida.eml":"a"}`, `{"..":"a"}`, `{"Ida.eml":1}`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		index, err := readIndex(data)
		if err != nil {
			return
		}
		if index == nil {
			t.Error("no index and no error")
		}
		for name := range index {
			if folder := filepath.Dir(filepath.Join("outbox", name)); folder != "outbox" || !strings.HasSuffix(name, draftEnding) {
				t.Errorf("%q is taken for a message", name)
			}
		}
	})
}
