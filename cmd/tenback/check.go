package main

import (
	"cmp"
	"errors"
	"io"
	"os"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/talkfirst"
	"tenback/templates"
	"tenback/workbook"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "read and score a roster, write no results, ask what is unclear",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Reads and scores as run does, writes no results, and lists what hides the most
first: columns to answer for, then cells, each with what to type. It shows how
each column was read, and says what run could not write.

What is asked is also written into ROSTER-questions.xlsx beside the roster. Type
answers there, or use --ask; every command takes them. See tenback help questions.

Who to talk to before the test is also in ROSTER-talk-first.pdf and .xlsx, which
are confidential. See tenback help privacy.

Example:  tenback check fitness-week.xlsx --ask

` + sharedHelp,
		Flags: append(readFlags(),
			&cli.BoolFlag{Name: "ask", Usage: "ask the questions one by one on this terminal"},
			&cli.BoolFlag{Name: "json", Usage: "print everything as JSON, and write no questions"},
			&cli.BoolFlag{Name: "break-signature", Usage: "for a digitally signed roster that run is to write anyway"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			if c.Bool("ask") {
				if err := ask(c, path); err != nil {
					return err
				}
			}
			return check(c, path)
		},
	}
}

// check reads, scores and reports a roster, and writes the questions about it.
func check(c *cli.Context, path string) error {
	s, err := read(c, path)
	if err != nil {
		return askUnheaded(c, err)
	}
	words, err := wordsFor(s.Roster)
	if err != nil {
		return err
	}
	if err = rehearse(c, &s, words); err != nil {
		return err
	}
	if c.Bool("json") {
		err = report.JSON(c.App.Writer, s)
	} else {
		var name string
		if name, err = keepQuestions(c, s.Roster, report.Findings(s.Roster, s.Outcomes)); err == nil {
			talkfirst.Tell(c.App.Writer, c.App.ErrWriter, s.Roster, s.Outcomes, words, localePaper(os.Getenv))
			report.Check(c.App.Writer, s.Roster, s.Outcomes, name)
			tellNotes(c.App.Writer, s.Notes)
			err = tellUnreached(c.App.Writer, s.Roster)
		}
	}
	if err != nil {
		return err
	}
	return cmp.Or(s.CannotWrite, leftOut(s.Outcomes))
}

// tellUnreached lists the people whom no message could reach.
func tellUnreached(w io.Writer, roster *workbook.Roster) error {
	audience, err := audienceSet(roster.Settings)
	if err != nil {
		return err
	}
	rules := mail.Rules{Today: time.Now(), Audience: (&pageMaker{audience: audience}).audienceOf}
	rules.TellUnreached(w, roster)
	return nil
}

// rehearse finds why run could not write the results, and what it would say.
func rehearse(c *cli.Context, s *report.Scored, words *templates.Set) error {
	s.Notes, s.CannotWrite = workbook.Rehearse(c.Context, s.Roster, s.Outcomes, workbook.WriteOptions{Scoring: s.Options, Words: words, BreakSignature: c.Bool("break-signature")})
	if errors.Is(s.CannotWrite, workbook.ErrSigned) {
		s.CannotWrite = signed(s.Roster.Path)
	}
	return c.Context.Err()
}
