package questions

import (
	"errors"
	"io"
	"path/filepath"
	"slices"

	"tenback/templates"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// TalkList holds the people to talk to before a test, with what came of it. It is
// confidential.
type TalkList struct{ Lines []TalkLine }

// TalkLine is one person of a TalkList.
type TalkLine struct {
	Sheet, Cells string // cells of the reasons, with commas between
	Person       string
	Reasons      string // with semicolons between
	Advice       string // what holds until somebody has talked to the person
	Outcome      string // as typed
}

// talkSheet is the kind of its sheet, as the keys of its words have it.
const talkSheet = "talk"

var talkFields = []field{{"sheet", 14}, {"cells", 12}, {"person", 24}, {"reasons", 62}, {"advice", 22}, {"outcome", 44}}

// OpenTalkList reads the list at path; a missing file has none.
func OpenTalkList(path string, password func() (string, error)) (*TalkList, error) {
	l := &TalkList{}
	f, size, err := source.OpenFile(path)
	if errors.Is(err, source.ErrMissing) {
		return l, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	from, err := source.Open(path, f, size, password)
	if err != nil {
		return nil, err
	}
	for _, s := range from.Sheets() {
		if isWord(s.Name, "questions.sheet."+talkSheet) {
			return l, readSheet(path, from, s, talkFields, "outcome", func(line map[string]string, _ string) error {
				l.Lines = append(l.Lines, TalkLine{line["sheet"], line["cells"], line["person"], line["reasons"], line["advice"], line["outcome"]})
				return nil
			})
		}
	}
	return nil, fail(path, "", "no sheet of people to talk to is in this file; delete it, and tenback check writes it again")
}

// Keep takes over the outcomes of an earlier list. One belongs to a person with the
// same reasons; another stays as a line of its own, because new reasons need a new
// talk. same reports whether line i has these reasons in some language.
func (l *TalkList) Keep(old *TalkList, same func(i int, reasons string) bool) {
	now := len(l.Lines)
	for _, was := range old.Lines {
		if was.Outcome == "" {
			continue
		}
		at := -1
		for i := range l.Lines[:now] {
			n := &l.Lines[i]
			if n.Sheet != was.Sheet || n.Person != was.Person || n.Outcome != "" || !same(i, was.Reasons) {
				continue
			}
			if at < 0 || n.Cells == was.Cells {
				at = i
			}
		}
		if at < 0 {
			l.Lines = append(l.Lines, was)
			continue
		}
		l.Lines[at].Outcome = was.Outcome
	}
}

// Forget removes the lines about a person, and returns how many those were.
func (l *TalkList) Forget(person func(name string) bool) (gone int) {
	before := len(l.Lines)
	l.Lines = slices.DeleteFunc(l.Lines, func(t TalkLine) bool { return person(t.Person) })
	return before - len(l.Lines)
}

// Save writes the list about a roster to path, with the roster's password.
func (l *TalkList) Save(path string, r *roster.Roster, words *templates.Set) error {
	return save(path, r, func(w io.Writer) error {
		return writeBook(w, filepath.Base(r.Path), words, "questions.sheet."+talkSheet, func(o *writing) { o.talk(l.Lines) })
	})
}

// talk writes the sheet of the list.
func (o *writing) talk(all []TalkLine) {
	name := o.sheet(talkSheet, talkFields)
	for i, t := range all {
		row := i + 2
		texts := []string{t.Sheet, t.Cells, t.Person, t.Reasons, t.Advice, t.Outcome}
		for c, text := range texts {
			style := o.text
			switch talkFields[c].key {
			case "person":
				style = o.asked
			case "outcome":
				style = o.answer
			}
			o.put(name, c+1, row, text, style)
		}
		o.fit(name, row, talkFields, texts...)
	}
}
