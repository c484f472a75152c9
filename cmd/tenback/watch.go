package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/desk"
	"tenback/cmd/internal/settle"
	"tenback/cmd/internal/single"
	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/source"
)

func watchCommand() *cli.Command {
	return &cli.Command{
		Name:      "watch",
		Usage:     "a desk on the day: score the roster whenever it is saved",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Stays open while results are entered. Whenever the roster is saved, in your
spreadsheet program as usual, the pages of those who are new or changed are made
in ROSTER-reports, and the columns are written into ROSTER-scored.xlsx. The
roster itself is never written to. While somebody has ROSTER-scored.xlsx open the
columns wait; the pages are made all the same.

The screen shows who was scored last, whom a clinician should see first, and
which cells to mend. It holds names and results: turn it away from the queue.

With --print each page that is made for a new or changed person is handed to a
command, its path as the last argument; the command should return by itself, as
lp does. Pages made when the desk opens, or made anew for everybody because the
look has changed, are not printed. There is no shell: "lp -d 'Room 12'" is a
program and two arguments.

Ctrl-C closes the desk.

Example:  tenback watch fitness-week.xlsx --print "lp -o sides=two-sided-long-edge"

EXIT STATUS:
   0    closed by Ctrl-C
   1    the desk could not open: file missing, locked, not readable
   2    wrong usage`,
		Flags: append(append(readFlags(), lookFlags()...),
			&cli.StringFlag{Name: "print", Usage: "hand each new page to `COMMAND`"},
			&cli.StringFlag{Name: "out", Usage: "write the results into `DIR` instead of beside the roster"},
			&cli.BoolFlag{Name: "break-signature", Usage: "write the results of a digitally signed roster too; they are not signed"},
			paperFlag(),
			&cli.IntFlag{Name: "jobs", Usage: "pages made at the same time (`N`; default: one a processor)"},
		),
		Action: func(c *cli.Context) error {
			p, err := runPlanFromFlags(c)
			if err != nil {
				return err
			}
			command, err := printCommand(c)
			if err != nil {
				return err
			}
			d := &deskWatch{plan: p, options: func() (scoring.Options, error) { return scoreOptions(c) },
				view: newDeskView(c.App.Writer), errs: c.App.ErrWriter}
			return d.open(c.Context, command)
		},
	}
}

// lookFlags are the options on the pages that a command has which does not put
// them together for a printer.
func lookFlags() []cli.Flag {
	return slices.DeleteFunc(pageFlags(), func(f cli.Flag) bool { return slices.Contains([]string{"combined", "by-group"}, f.Names()[0]) })
}

// printCommand is the command of --print with its program found; nil if none is
// wished.
func printCommand(c *cli.Context) ([]string, error) {
	if !c.IsSet("print") {
		return nil, nil
	}
	argv, err := desk.ParseCommand(c.String("print"))
	if err != nil {
		return nil, usageError(fmt.Sprintf("--print: %v", err))
	}
	if argv[0], err = exec.LookPath(argv[0]); err != nil {
		return nil, usageError(fmt.Sprintf("--print: the program cannot be found: %v", err))
	}
	return argv, nil
}

// How long is waited.
const (
	// patience is how long a roster that cannot be read may be one that is just
	// being saved.
	patience = 3 * time.Second
	hurry    = 300 * time.Millisecond // between two attempts then
	leisure  = 3 * time.Second        // between two attempts at what somebody has to give free
)

// The things that can stand in the way, as the view keeps them apart.
const (
	ofRoster  = "roster"
	ofTurn    = "turn"
	ofPages   = "pages"
	ofColumns = "columns"
	ofClock   = "clock"
)

// deskWatch is the desk at work.
type deskWatch struct {
	plan    runPlan
	options func() (scoring.Options, error) // read anew each time: a table may lie in the roster
	view    *deskView
	errs    io.Writer
	printer *desk.Printer // nil if nothing is printed

	folder   *batch.Folder
	board    desk.Board
	roster   *workbook.Roster // as last read; nil before
	outcomes []workbook.Outcome
	words    *templates.Set // of the columns
	owed     bool           // the columns are still to be written
	midway   bool           // it was closed while pages were being made
	badSince time.Time      // the roster cannot be read since then; zero if it can
}

// open runs the desk until the context ends, which is no error.
func (d *deskWatch) open(ctx context.Context, command []string) error {
	if err := writable(d.plan.out); err != nil {
		return err
	}
	if _, err := os.Stat(d.plan.roster); err != nil {
		_, err := openRoster(d.plan.roster, d.plan.read) // says it well
		return err
	}
	file, err := settle.Watch(d.plan.roster)
	if err != nil {
		return err
	}
	defer file.Close()
	d.folder = d.plan.pageFolder()
	d.folder.Watched = true
	if command != nil {
		d.printer = desk.NewPrinter(command, func(page string, err error) {
			if err != nil {
				d.view.say(fmt.Sprintf("%s was not printed: %v", filepath.Base(page), err))
				return
			}
			d.view.say("Printed: " + filepath.Base(page))
		})
	}
	d.view.open(d.plan)
	err = d.loop(ctx, file)
	if d.printer != nil {
		if left := d.printer.Close(); len(left) > 0 {
			d.view.say("Not printed any more: " + strings.Join(baseNames(left), ", "))
		}
	}
	if ctx.Err() == nil || err != nil && !d.midway {
		return err
	}
	if d.midway {
		d.view.say("Stopped while pages were being made; tenback run makes the rest")
	}
	if d.owed {
		d.view.say(fmt.Sprintf("The columns of the last reading are not in %s; tenback run writes them", filepath.Base(d.plan.scored())))
	}
	d.view.close(&d.board)
	return nil
}

func baseNames(paths []string) []string {
	var names []string
	for _, p := range paths {
		names = append(names, filepath.Base(p))
	}
	return names
}

// loop looks at the roster whenever it may have changed.
func (d *deskWatch) loop(ctx context.Context, file *settle.File) error {
	var again time.Duration
	for {
		state, err := file.Next(ctx, again)
		if err != nil {
			return nil // the context has ended, and nothing was under way
		}
		if state == settle.Gone {
			d.badSince = time.Time{}
			d.view.stand(ofRoster, "The roster is not there: it was deleted or renamed, or its drive is away. Waiting for it to come back")
			continue
		}
		if again, err = d.look(ctx); err != nil {
			return err
		}
	}
}

// look reads the roster if it holds something new and does what is to be done.
// It tells when to look again although nothing has changed; 0 is never. Before
// the first reading an error ends the desk, afterwards only that of the context.
func (d *deskWatch) look(ctx context.Context) (again time.Duration, err error) {
	now, err := source.FingerprintOf(d.plan.roster)
	known := err == nil && d.roster != nil && now == d.roster.Seen
	if known {
		d.readable()
		if !d.owed {
			return 0, nil
		}
	}
	release, err := single.Take(d.plan.out, d.plan.base())
	if err != nil {
		d.view.stand(ofTurn, "Another tenback is writing results of this roster. Waiting until it is done")
		return hurry, nil
	}
	defer release()
	d.view.stand(ofTurn, "")
	if known {
		return d.columns(ctx), nil
	}
	roster, earlier, maker, err := d.read()
	if err != nil {
		return d.unreadable(err)
	}
	d.readable()
	return d.take(ctx, roster, earlier, maker)
}

// read opens the roster and what goes with it.
func (d *deskWatch) read() (roster *workbook.Roster, earlier []*workbook.Roster, maker *pageMaker, err error) {
	notes := io.Discard // what is to be mended elsewhere is said once
	if d.roster == nil {
		notes = d.errs
	}
	if roster, earlier, maker, err = d.plan.open(notes); err == nil {
		d.plan.score, err = d.options()
		maker.scoring = d.plan.score
	}
	return roster, earlier, maker, err
}

// mayBeSaving tells that an error is one of a file that is being written.
func mayBeSaving(err error) bool {
	return slices.ContainsFunc([]error{source.ErrMissing, source.ErrUnreadable, source.ErrEmpty, source.ErrNotWorkbook, source.ErrDamaged},
		func(kind error) bool { return errors.Is(err, kind) })
}

// isEmptyYet tells that an error is one of a roster that people have still to
// fill.
func isEmptyYet(err error) bool {
	return slices.ContainsFunc([]error{source.ErrNoCells, source.ErrNoHeader, source.ErrNoPeople},
		func(kind error) bool { return errors.Is(err, kind) })
}

// unreadable waits for a roster that cannot be read, without a word while it
// may be half-saved.
func (d *deskWatch) unreadable(err error) (again time.Duration, fatal error) {
	if d.badSince.IsZero() {
		d.badSince = time.Now()
	}
	saving := mayBeSaving(err)
	switch {
	case saving && time.Since(d.badSince) < patience:
		return hurry, nil
	case !d.board.Read() && !isEmptyYet(err):
		return 0, err
	}
	if !d.board.Read() {
		d.board.Take(desk.Reading{At: time.Now()}) // whoever is entered now is news
	}
	text := fmt.Sprintf("The roster cannot be read: %v. Waiting until it is saved again", err)
	if d.roster != nil {
		text += "; what was read before stands"
	}
	d.view.stand(ofRoster, text)
	if saving {
		return leisure, nil // somebody may give it free without a change
	}
	return 0, nil
}

func (d *deskWatch) readable() {
	d.badSince = time.Time{}
	d.view.stand(ofRoster, "")
}

// take makes the pages of a reading, tells what is new and writes the columns.
func (d *deskWatch) take(ctx context.Context, roster *workbook.Roster, earlier []*workbook.Roster, maker *pageMaker) (again time.Duration, err error) {
	first := !d.board.Read()
	clock := clockText(roster)
	if clock != "" {
		clock = strings.ToUpper(clock[:1]) + clock[1:] + "; " + clockIgnored
	}
	d.view.stand(ofClock, clock)
	at := time.Now()
	outcomes := batch.Score(roster, d.plan.score, earlier...)
	if first {
		sweep(d.plan.out, d.plan.folder())
	}
	bar := terminal.NewProgress(d.errs, countPages(outcomes), !first)
	work, err := d.plan.writePages(ctx, d.folder, outcomes, maker, bar.Step)
	bar.Finish()
	switch {
	case err != nil && ctx.Err() != nil:
		d.midway = true
		return 0, err
	case err != nil && first:
		return 0, err
	case err != nil:
		d.view.stand(ofPages, fmt.Sprintf("No pages were made: %v", err))
		return leisure, nil
	}
	d.view.stand(ofPages, "")
	reading := readingOf(at, roster, outcomes, &d.plan.score, &work)
	d.roster, d.outcomes, d.words, d.owed = roster, outcomes, maker.words[maker.lang], true
	news := d.board.Take(reading)
	for _, note := range work.notes() {
		d.view.sayOnce("Note: " + note)
	}
	d.view.reading(&d.board, news)
	for _, f := range work.Failures {
		d.view.say(fmt.Sprintf("No page for %s, %s: %v", f.Outcome.Row.Person.Label(), placeOf(f.Outcome.Row), f.Err))
	}
	if stale := work.staleText(); stale != "" && (first || len(news.Lost) > 0) {
		d.view.say("Stale: " + stale)
	}
	if roster.Locked() {
		d.view.sayOnce("Note: " + pagesNotLocked)
	}
	d.hand(news)
	return d.columns(ctx), nil
}

// hand gives the pages of the news to the printer.
func (d *deskWatch) hand(news desk.News) {
	if d.printer == nil {
		return
	}
	for _, r := range news.Scored {
		path := filepath.Join(d.plan.folder(), r.Page)
		if whole, err := filepath.Abs(path); err == nil {
			path = whole
		}
		d.printer.Hand(path)
	}
	switch {
	case news.Made == 0:
	case news.First:
		d.view.say(fmt.Sprintf("%s made before the desk opened and not printed", terminal.Count(news.Made, "page was", "pages were")))
	default:
		d.view.say(fmt.Sprintf("%s made anew for a new look and not printed", terminal.Count(news.Made, "page was", "pages were")))
	}
}

// columns writes the copy of the roster with the result columns, if that is
// owed, and tells when to try again.
func (d *deskWatch) columns(ctx context.Context) (again time.Duration) {
	if !d.owed {
		return 0
	}
	name := filepath.Base(d.plan.scored())
	if lock := lockBeside(d.plan.scored()); lock != "" {
		d.view.stand(ofColumns, fmt.Sprintf("%s is open in another program (%s lies beside it), so the columns wait until it is closed. The pages are made all the same", name, lock))
		return leisure
	}
	// What the desk has begun to write it ends, also when it is being closed.
	written, err := workbook.WriteResults(context.WithoutCancel(ctx), d.roster, d.outcomes, d.plan.scored(), workbook.WriteOptions{Scoring: d.plan.score, Words: d.words, BreakSignature: d.plan.breakSignature})
	switch {
	case errors.Is(err, workbook.ErrChangedSinceRead):
		return hurry // it is read again
	case err != nil:
		d.view.stand(ofColumns, fmt.Sprintf("The columns wait: %v. The pages are made all the same", err))
		return leisure
	}
	for _, note := range written.Notes {
		d.view.sayOnce("Note: " + note)
	}
	d.owed = false
	d.view.stand(ofColumns, "")
	return 0
}

// lockBeside is the name of the file by which an office program says that it
// has a workbook open; empty if there is none.
func lockBeside(path string) string {
	dir, name := filepath.Split(path)
	for _, lock := range []string{"~$" + name, ".~lock." + name + "#"} {
		if _, err := os.Lstat(filepath.Join(dir, lock)); err == nil {
			return lock
		}
	}
	return ""
}
