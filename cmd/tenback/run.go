package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/single"
	"tenback/cmd/internal/talkfirst"
	"tenback/cmd/internal/terminal"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/safefile"
	"tenback/workbook/source"
)

func runCommand() *cli.Command {
	return &cli.Command{
		Name:      "run",
		Usage:     "score a roster: write the result columns and one PDF a person",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Scores every person and writes beside the roster ROSTER-scored.xlsx (a copy with
result columns at the right) and ROSTER-reports with one PDF a person. The
roster may be of another kind (.ods, .csv, .tsv, .txt). A copy has the roster's
password.

Example:  tenback run fitness-week.xlsx --sheet "Class 8B"

` + sharedHelp,
		Flags: append(append(readFlags(), lookFlags()...),
			&cli.BoolFlag{Name: "combined", Usage: "also write all pages into one PDF to print, each report on a new sheet"},
			&cli.BoolFlag{Name: "by-group", Usage: "with --combined: one group after another, not in the roster's order"},
			&cli.StringFlag{Name: "out", Usage: "write the results into `DIR` instead of beside the roster"},
			&cli.BoolFlag{Name: "in-place", Usage: "write the columns into the roster itself; a dated backup is made first"},
			&cli.BoolFlag{Name: "break-signature", Usage: "write the results of a digitally signed roster too; they are not signed"},
			&cli.BoolFlag{Name: "no-reports", Usage: "write the columns, no pages"},
			paperFlag(),
			&cli.BoolFlag{Name: "quiet", Usage: "print nothing but errors"},
		),
		Action: func(c *cli.Context) error {
			p, err := runPlanFromFlags(c)
			if err != nil {
				return err
			}
			return p.run(c.Context, c.App.Writer, c.App.ErrWriter)
		},
	}
}

// runPlan holds the options of one run.
type runPlan struct {
	roster  string
	read    workbook.ReadOptions
	score   scoring.Options
	earlier []string // workbooks of the same people
	out     string   // folder for the results
	inPlace bool

	breakSignature bool

	reports           bool
	paper             kit.Paper
	words             string // folder of the user's own words
	combined, byGroup bool
	quiet             bool
}

func runPlanFromFlags(c *cli.Context) (runPlan, error) {
	roster, err := oneArgument(c, "a roster")
	if err != nil {
		return runPlan{}, err
	}
	reading, err := readOptions(c)
	if err != nil {
		return runPlan{}, err
	}
	p := runPlan{roster: roster, read: reading, earlier: c.StringSlice("earlier"), words: c.String("words"), combined: c.Bool("combined"), byGroup: c.Bool("by-group"), out: c.String("out"), inPlace: c.Bool("in-place"), breakSignature: c.Bool("break-signature"),
		reports: !c.Bool("no-reports"), quiet: c.Bool("quiet")}
	if what := source.Foreign(roster); p.inPlace && what != "" {
		return runPlan{}, usageError(fmt.Sprintf("--in-place: %s is %s, which cannot hold result columns; without it they go into a workbook beside the file", filepath.Base(roster), what))
	}
	switch {
	case p.combined && !p.reports:
		return p, usageError("--combined puts the pages together, and --no-reports makes none; leave one of them out")
	case p.byGroup && !p.combined:
		return p, usageError("--by-group is the order of --combined; add that too")
	}
	if p.out == "" {
		p.out = filepath.Dir(roster)
	}
	p.paper, err = paperOf(c)
	return p, err
}

// base returns the roster's file name without its extension.
func (p runPlan) base() string { return batch.BaseOf(p.roster) }

// scored returns the path of the workbook with the result columns.
func (p runPlan) scored() string {
	if p.inPlace {
		return p.roster
	}
	ending := filepath.Ext(p.roster)
	if source.Foreign(p.roster) != "" {
		ending = ".xlsx"
	}
	return filepath.Join(p.out, p.base()+batch.ScoredEnding+ending)
}

// pageFolder returns the folder of the run's pages.
func (p runPlan) pageFolder() *batch.Folder {
	return &batch.Folder{Path: p.folder()}
}

// folder returns the path of the folder of pages.
func (p runPlan) folder() string { return filepath.Join(p.out, p.base()+batch.PagesEnding) }

// open reads the roster, the earlier workbooks and what the pages need. It notes
// on errs how many cells of the earlier ones could not be read.
func (p *runPlan) open(errs io.Writer) (roster *workbook.Roster, earlier []*workbook.Roster, maker *pageMaker, err error) {
	if roster, err = openRoster(p.roster, p.read); err != nil {
		return nil, nil, nil, err
	}
	if roster.Signed && !p.breakSignature {
		return nil, nil, nil, signed(p.roster)
	}
	if p.score, err = scoreOptions(roster); err != nil {
		return nil, nil, nil, err
	}
	if maker, err = newPageMaker(roster, p.words, p.paper); err != nil {
		return nil, nil, nil, err
	}
	maker.scoring = p.score
	earlier, err = openEarlier(p.earlier, p.roster, p.read, errs)
	return roster, earlier, maker, err
}

// signed returns the error for a roster with a digital signature.
func signed(roster string) error {
	return terminal.Hinted(fmt.Errorf("%s: %w", roster, workbook.ErrSigned), "--break-signature writes the results anyway; sign the workbook again afterwards")
}

func (p runPlan) run(ctx context.Context, out, errs io.Writer) error {
	if p.quiet {
		out = io.Discard
	}
	roster, earlier, maker, err := p.open(errs)
	if err != nil {
		return err
	}
	noteClock(errs, roster)
	outcomes := batch.Score(roster, p.score, earlier...)
	if err := writable(p.out); err != nil {
		return err
	}
	release, err := reserve(p.out, p.base(), p.roster)
	if err != nil {
		return err
	}
	defer release()
	batch.Sweep(p.out, p.folder())
	var work batch.Work
	var booklets []string
	printed := 0
	if p.reports {
		bar := terminal.NewProgress(errs, batch.CountPages(outcomes), p.quiet)
		work, err = p.pageFolder().Write(ctx, outcomes, &p.score, maker.person, bar.Step)
		bar.Finish()
		if err == nil {
			err = p.pageFolder().Remember(roster.Settings)
		}
		if err != nil {
			return err
		}
		if p.combined {
			if booklets, printed, err = p.combine(ctx, outcomes, maker); err != nil {
				return err
			}
		}
	} else {
		withoutReports(outcomes)
	}
	written, err := workbook.WriteResults(ctx, roster, outcomes, p.scored(), workbook.WriteOptions{Scoring: p.score,
		Words: maker.words[maker.lang], InPlace: p.inPlace, BreakSignature: p.breakSignature, Now: time.Now()})
	if err != nil {
		if p.reports {
			fmt.Fprintln(out, "The pages were made all the same:")
			p.tellPages(out, roster, &work)
		}
		tellBooklets(out, booklets, printed)
		return err
	}
	talkfirst.Tell(out, errs, roster, outcomes, maker.words[maker.lang], p.paper)
	report.Summary(out, roster, outcomes)
	for _, f := range work.Failures {
		fmt.Fprintf(errs, "tenback: error: no page for row %d of %s: %v\n", f.Outcome.Row.Number, f.Outcome.Row.Sheet, f.Err)
	}
	p.tell(out, roster, &written, &work)
	tellBooklets(out, booklets, printed)
	if len(work.Failures) > 0 {
		return fmt.Errorf("%s could not be made", terminal.Count(len(work.Failures), "page", "pages"))
	}
	return leftOut(outcomes)
}

func tellNotes(out io.Writer, notes []string) {
	for _, note := range notes {
		fmt.Fprintf(out, "Note      %s\n", note)
	}
}

// tell prints what was written where.
func (p runPlan) tell(out io.Writer, roster *workbook.Roster, written *workbook.Written, work *batch.Work) {
	fmt.Fprintf(out, "\nWorkbook  %s\n", p.scored())
	tellNotes(out, written.Notes)
	if written.Signed {
		fmt.Fprintln(out, "Note      the roster was digitally signed; the signature does not hold for what was written")
	}
	if written.Backup != "" {
		fmt.Fprintf(out, "Backup    %s\n", written.Backup)
	}
	if p.reports {
		p.tellPages(out, roster, work)
	}
}

func (p runPlan) tellPages(out io.Writer, roster *workbook.Roster, work *batch.Work) {
	fmt.Fprintf(out, "Reports   %s (%s)\n", p.folder(), work)
	if stale := work.StaleText(); stale != "" {
		fmt.Fprintf(out, "Stale     %s\n", stale)
	}
	if len(work.Replaced) > 0 {
		fmt.Fprintf(out, "Note      %s\n", batch.NoFont(work.Replaced))
	}
	if roster.Locked() {
		fmt.Fprintf(out, "Note      %s\n", batch.PagesNotLocked)
	}
}

// tellBooklets prints where the documents for the printer are.
func tellBooklets(out io.Writer, files []string, pages int) {
	for _, path := range files {
		fmt.Fprintf(out, "To print  %s\n", path)
	}
	if len(files) > 0 {
		fmt.Fprintf(out, "          %s; print on both sides; each report starts on a new sheet\n", terminal.Count(pages, "page", "pages"))
	}
}

// withoutReports removes the file names of pages from outcomes.
func withoutReports(outcomes []workbook.Outcome) {
	for i := range outcomes {
		outcomes[i].Report = ""
	}
}

// leftOut returns the error of a run with rows left out, nil if all were scored.
func leftOut(outcomes []workbook.Outcome) error {
	for i := range outcomes {
		if outcomes[i].LeftOut() {
			return errLeftOut
		}
	}
	return nil
}

// writable makes the folder if it is missing, and returns an error if no file can
// be made in it.
func writable(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return terminal.Hinted(fmt.Errorf("cannot make the output folder: %w", err), "choose another with --out")
	}
	trial, err := safefile.Create(filepath.Join(dir, ".tenback-trial"))
	if err != nil {
		return terminal.Hinted(fmt.Errorf("cannot write into %s: %w", dir, err), "choose another folder with --out")
	}
	trial.Discard()
	return nil
}

// reserve locks the files of a roster against other runs of this program until
// release.
func reserve(dir, base, roster string) (release func(), err error) {
	if release, err = single.Take(dir, base); err != nil {
		return nil, fmt.Errorf("%s: %w", roster, err)
	}
	return release, nil
}
