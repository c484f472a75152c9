// Package talkfirst lists the people to talk to before a test: on the terminal, and
// in a workbook and a PDF beside the roster. The lists are confidential.
package talkfirst

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/scoring"
	"tenback/templates"
	"tenback/templates/wording"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/questions"
	"tenback/workbook/safefile"
	"tenback/workbook/sheetwords"
)

// Tell writes the list of a roster's outcomes and prints it. A list that cannot be
// written is only noted, because it is on the screen too.
func Tell(out, errs io.Writer, roster *workbook.Roster, outcomes []workbook.Outcome, words *templates.Set, paper kit.Paper) {
	l := listOf(roster, outcomes)
	err := l.save(words, paper)
	if err != nil {
		fmt.Fprintf(errs, "tenback: note: the list of people to talk to first was not written: %v\n", err)
	}
	l.print(out, err == nil)
}

// list is who to talk to, the gravest advice first.
type list struct {
	files    batch.Files
	roster   *workbook.Roster
	outcomes []*workbook.Outcome
	lines    []questions.TalkLine // of the outcomes, then outcomes of earlier lists
}

func listOf(roster *workbook.Roster, outcomes []workbook.Outcome) *list {
	l := &list{files: batch.FilesOf(roster.Path), roster: roster}
	for i := range outcomes {
		if len(outcomes[i].TalkFirst) > 0 {
			l.outcomes = append(l.outcomes, &outcomes[i])
		}
	}
	slices.SortStableFunc(l.outcomes, func(a, b *workbook.Outcome) int {
		return -cmp.Compare(a.TalkFirst[0].Advice, b.TalkFirst[0].Advice)
	})
	return l
}

// save brings the workbook and the PDF up to date. It keeps the outcomes that were
// typed into the workbook, and removes lists of nobody.
func (l *list) save(words *templates.Set, paper kit.Paper) error {
	old, err := questions.OpenTalkList(l.files.Talk(), func() (string, error) { return l.roster.In.Password, nil })
	if err != nil {
		return err
	}
	now := &questions.TalkList{Lines: l.in(words)}
	byLanguage := map[string][]questions.TalkLine{}
	now.Keep(old, func(i int, reasons string) bool {
		if len(byLanguage) == 0 {
			for lang, set := range sheetwords.Builtin() {
				byLanguage[lang] = l.in(set)
			}
		}
		for _, lines := range byLanguage {
			if lines[i].Reasons == reasons {
				return true
			}
		}
		return false
	})
	l.lines = now.Lines
	switch {
	case len(now.Lines) == 0:
		err = remove(l.files.Talk())
	case !reflect.DeepEqual(now, old): // somebody may have it open
		err = now.Save(l.files.Talk(), l.roster, words)
	}
	return errors.Join(err, l.draw(words, paper))
}

// in returns the lines of the list in a language, without outcomes, as they would be
// read from the workbook again.
func (l *list) in(set *templates.Set) []questions.TalkLine {
	words := sheetwords.Of(set)
	var all []questions.TalkLine
	for _, o := range l.outcomes {
		all = append(all, questions.TalkLine{Sheet: cell.Clean(o.Row.Sheet), Cells: cell.Clean(strings.Join(cellsOf(o), ", ")), Person: cell.Clean(o.Row.Person.Label()),
			Reasons: cell.Clean(strings.Join(reasonsOf(o, words), "; ")), Advice: wording.Capital(words.Said(o.TalkFirst[0].Advice.Said()))})
	}
	return all
}

// reasonsOf says the reasons.
func reasonsOf(o *workbook.Outcome, words *sheetwords.Words) (all []string) {
	for _, r := range o.TalkFirst {
		all = append(all, wording.Capital(words.Said(r.Why)))
	}
	return all
}

// cellsOf returns the cells of the reasons, each once.
func cellsOf(o *workbook.Outcome) (cells []string) {
	for _, r := range o.TalkFirst {
		if r.Cell != "" && !slices.Contains(cells, r.Cell) {
			cells = append(cells, r.Cell)
		}
	}
	return cells
}

// draw writes the PDF, with the roster's password.
func (l *list) draw(words *templates.Set, paper kit.Paper) error {
	if len(l.outcomes) == 0 {
		return remove(l.files.TalkPages())
	}
	t := testday.Talk{Roster: filepath.Base(l.roster.Path), Paper: paper, Words: words, Program: version.Program()}
	for i, o := range l.outcomes {
		line := l.lines[i]
		t.People = append(t.People, testday.Talked{Sheet: line.Sheet, Cells: line.Cells, Name: line.Person, Group: o.Row.Person.Group,
			Reasons: reasonsOf(o, sheetwords.Of(words)), Advice: line.Advice, Outcome: line.Outcome})
	}
	var pdf bytes.Buffer
	if _, err := testday.WriteTalk(&pdf, t); err != nil {
		return err
	}
	data := pdf.Bytes()
	if l.roster.Locked() {
		var err error
		if data, err = mail.LockPage(data, l.roster.In.Password); err != nil {
			return err
		}
	}
	return safefile.WriteBytes(l.files.TalkPages(), data)
}

// print prints the people without an outcome, by advice, and where the lists are if
// they were written.
func (l *list) print(w io.Writer, written bool) {
	if len(l.outcomes) == 0 {
		return
	}
	fmt.Fprintf(w, "Talk to these first: %s (confidential)\n", terminal.Count(len(l.outcomes), "person", "people"))
	advice, settled := scoring.Said{}, 0
	for i, o := range l.outcomes {
		if i < len(l.lines) && l.lines[i].Outcome != "" {
			settled++
			continue
		}
		if now := o.TalkFirst[0].Advice.Said(); now != advice {
			advice = now
			fmt.Fprintf(w, "  %s\n", wording.Capital(advice.String()))
		}
		var why []string
		for _, r := range o.TalkFirst {
			why = append(why, r.Why.String())
		}
		fmt.Fprintf(w, "    %s, %s: %s\n", o.Row.Sheet+"!"+strings.Join(cellsOf(o), ", "), o.Row.Person.Label(), strings.Join(why, "; "))
	}
	if settled > 0 {
		fmt.Fprintf(w, "  With an outcome in %s: %d\n", filepath.Base(l.files.Talk()), settled)
	}
	if written {
		fmt.Fprintf(w, "  To print: %s; what came of it goes into %s\n", filepath.Base(l.files.TalkPages()), filepath.Base(l.files.Talk()))
	}
	fmt.Fprintln(w)
}

// remove removes a file if it is there.
func remove(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
