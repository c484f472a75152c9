package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/inquiry"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/header"
	"tenback/workbook/roster"
)

// inquiryInto returns what is asked about a roster, in its language.
func inquiryInto(c *cli.Context, r *roster.Roster, findings []workbook.Finding) (*inquiry.Inquiry, error) {
	words, err := wordsFor(r)
	if err != nil {
		return nil, err
	}
	q, err := inquiry.Of(r, findings, words, passwordOf(c, r.Path))
	return q, withPasswordHint(err)
}

// wordsFor returns the words of a roster's language.
func wordsFor(r *roster.Roster) (*templates.Set, error) {
	lang, err := languageOf(r.Settings)
	if err != nil {
		return nil, err
	}
	return templates.Load(lang, "")
}

// keepQuestions writes the file of questions if there is one to write, and returns
// its name, else "". A failure to write is only noted, because the questions are on
// the screen too.
func keepQuestions(c *cli.Context, r *roster.Roster, findings []workbook.Finding) (name string, err error) {
	q, err := inquiryInto(c, r, findings)
	if err != nil || !q.Needed() {
		return "", err
	}
	if err := q.Save(); err != nil {
		fmt.Fprintf(c.App.ErrWriter, "tenback: note: the questions were not written: %v\n", err)
		return "", nil
	}
	return q.Name(), nil
}

// askUnheaded prints the columns of a roster without a known header, and writes
// the questions about them. It returns the failure to read the roster.
func askUnheaded(c *cli.Context, failure error) error {
	var unheaded *header.Unheaded
	if !errors.As(failure, &unheaded) {
		return failure
	}
	name, err := keepQuestions(c, &unheaded.Roster, nil)
	if err != nil {
		return err
	}
	report.Unheaded(c.App.Writer, &unheaded.Roster, name)
	return failure
}

// ask asks the questions about a roster on the terminal.
func ask(c *cli.Context, path string) error {
	if in, ok := c.App.Reader.(*os.File); !ok || !term.IsTerminal(int(in.Fd())) {
		return terminal.Hinted(errors.New("--ask: there is no terminal to ask on"), "type the answers into "+batch.FilesOf(path).Questions()+", which tenback check writes")
	}
	var r *roster.Roster
	var findings []workbook.Finding
	s, err := read(c, path)
	var unheaded *header.Unheaded
	switch {
	case errors.As(err, &unheaded):
		r = &unheaded.Roster
	case err != nil:
		return err
	default:
		r, findings = s.Roster, report.Findings(s.Roster, s.Outcomes)
	}
	q, err := inquiryInto(c, r, findings)
	if err != nil {
		return err
	}
	answered, err := q.Ask(c.Context, c.App.Writer, terminal.NewAsker(c.App.Reader, c.App.Writer))
	if answered > 0 {
		fmt.Fprintf(c.App.Writer, "\n%s in %s\n\n", terminal.Count(answered, "answer is", "answers are"), q.Name())
	}
	return err
}
