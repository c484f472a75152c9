package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/summary"
	"tenback/scoring/group"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/heading"
	"tenback/workbook/safefile"
	"tenback/workbook/starter"
)

func groupCommand() *cli.Command {
	return &cli.Command{
		Name:      "group",
		Usage:     "write the organiser's summary: counts, medians and charts without names",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Reads and scores the roster and writes, beside it, ROSTER-group.pdf and
ROSTER-group.xlsx with the sheet "Group summary", which holds the same tables.
The sheet has a file of its own, because the workbook with everyone's results
must not travel with it. The roster itself is not touched.

No group of fewer than five is shown: small groups are merged, and what could be
worked out by subtraction is left out. Someone tested on several days counts
once, with the latest day that gave a value.

What was printed is kept, as counts, in ROSTER-group-released.json. A further summary
of the same round is refused if the two together could expose someone, as when one
person came or left in between.

Example:  tenback group fitness-week.xlsx --smallest-group 10

` + sharedHelp,
		Flags: append(append(readFlags(), lookFlags()...),
			smallestFlag(),
			&cli.BoolFlag{Name: "replaces", Usage: "take the place of an earlier summary that was never handed out"},
			&cli.StringFlag{Name: "out", Usage: "write the summary into `DIR` instead of beside the roster"},
			paperFlag(),
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a roster")
			if err != nil {
				return err
			}
			smallest, err := smallestOf(c)
			if err != nil {
				return err
			}
			paper, err := paperOf(c)
			if err != nil {
				return err
			}
			read, err := read(c, path)
			if err != nil {
				return err
			}
			maker, err := newPageMaker(read.Roster, c.String("words"), paper)
			if err != nil {
				return err
			}
			return summarise(c.App.Writer, read, maker, smallest, cmp.Or(c.String("out"), filepath.Dir(path)), c.Bool("replaces"))
		},
	}
}

func smallestFlag() cli.Flag {
	return &cli.IntFlag{Name: "smallest-group", Value: group.DefaultSmallest, Usage: fmt.Sprintf("size of the smallest group shown: `N` from %d", group.LeastSmallest)}
}

// smallestOf returns the size of the smallest group that is shown.
func smallestOf(c *cli.Context) (int, error) {
	smallest := c.Int("smallest-group")
	if smallest < group.LeastSmallest {
		return 0, usageError(fmt.Sprintf("--smallest-group takes a whole number from %d: smaller groups would expose people", group.LeastSmallest))
	}
	return smallest, nil
}

// summarise writes the organiser's summary of a roster into folder.
func summarise(w io.Writer, read report.Scored, maker *pageMaker, smallest int, folder string, replaces bool) error {
	if err := writable(folder); err != nil {
		return err
	}
	figures, err := group.Summarise(batch.Members(read.Roster, read.Earlier, read.Outcomes, &read.Options), smallest)
	if err != nil {
		return err
	}
	base := batch.BaseOf(read.Roster.Path) + "-group"
	released := filepath.Join(folder, base+"-released.json")
	earlier, err := batch.Releases(released)
	if err != nil {
		return err
	}
	all, err := batch.Release(figures.Release(batch.FirstDay(read.Roster, read.Earlier)), earlier, replaces)
	if err != nil {
		return err
	}
	tested := batch.LatestDay(read.Outcomes)
	words, audience := maker.words[maker.lang], maker.audienceOfAll(read.Roster)
	report := summary.Document{Summary: figures, Adults: read.Options.Adults, Youth: read.Options.Youth, Tested: tested, Paper: maker.paper,
		Words: words, Program: version.Program(), Audience: audience, Brand: maker.brand}
	var pdf, sheet bytes.Buffer
	made, err := summary.Write(&pdf, report)
	if err != nil {
		return err
	}
	if err := starter.WriteGroup(&sheet, figures, read.Options.Adults, tested, words.For(audience)); err != nil {
		return fmt.Errorf("the sheet of the summary: %w", err)
	}
	if _, err := os.Stat(filepath.Join(folder, base+".pdf")); err == nil {
		fmt.Fprintf(w, "Note      %s of an earlier run is overwritten\n", base+".pdf")
	}
	if err := batch.KeepReleases(released, all); err != nil {
		return err
	}
	pdfPath, sheetPath := filepath.Join(folder, base+".pdf"), filepath.Join(folder, base+".xlsx")
	if err := safefile.WriteBytes(pdfPath, pdf.Bytes()); err != nil {
		return err
	}
	if err := safefile.WriteBytes(sheetPath, sheet.Bytes()); err != nil {
		return err
	}
	printGroup(w, figures, made, pdfPath, sheetPath)
	return nil
}

// printGroup prints what was written, and no number that the summary hides.
func printGroup(w io.Writer, s group.Summary, made kit.Report, pdf, sheet string) {
	if len(s.Tables) == 0 {
		fmt.Fprintf(w, "Too few people for a summary: groups of fewer than %[1]d would expose single people.\n"+
			"It takes %[1]d or more with a result, all 18 and over or all under 18. The page says so.\n\n", s.Smallest)
	} else if n := len(s.Withheld); n > 0 {
		fmt.Fprintf(w, "Not shown: %[1]s. A count below %[2]d could expose single people, so each row needs %[2]d or more.\n"+
			"The last part of the page lists what is not shown.\n\n", terminal.Count(n, "table", "tables"), s.Smallest)
	}
	if len(made.Replaced) > 0 {
		fmt.Fprintf(w, "Note      %s\n", batch.NoFont(made.Replaced))
	}
	fmt.Fprintf(w, "Summary   %s (%s)\n", pdf, terminal.Count(made.Pages, "page", "pages"))
	fmt.Fprintf(w, "Sheet     %s\n", sheet)
}

// audienceOfAll returns the audience of the summary: the one set, or the one that
// the group columns of all sheets agree on.
func (m *pageMaker) audienceOfAll(roster *workbook.Roster) templates.Audience {
	if m.audience != templates.Anyone {
		return m.audience
	}
	all := templates.Anyone
	for i, sheet := range roster.Sheets {
		setting, ok := heading.SettingOf(sheet)
		if !ok || i > 0 && all != templates.Audience(setting) {
			return templates.Anyone
		}
		all = templates.Audience(setting)
	}
	return all
}
