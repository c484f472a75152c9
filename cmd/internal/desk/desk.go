package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/single"
	"tenback/cmd/internal/terminal"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/source"
)

// Input is a roster that was read, and what its pages are made with.
type Input struct {
	Roster  *workbook.Roster
	Earlier []*workbook.Roster // of the same people
	Options scoring.Options
	Person  func(*workbook.Outcome) person.Person
	Words   *templates.Set // of the result columns
}

// Config says what a desk watches, and where it writes.
type Config struct {
	Roster  string // path
	Answers string // path of the questions with their answers
	Scored  string // path of the workbook with the result columns
	Out     string // folder of the results
	Base    string // the roster's file name without its ending
	Pages   *batch.Folder
	// Read reads the roster. It writes to notes what to mend in earlier workbooks.
	Read           func(notes io.Writer) (Input, error)
	Print          []string // command for new pages; nil for none
	BreakSignature bool     // of a signed roster
	Screen         io.Writer
	Errs           io.Writer
}

// Retry intervals.
const (
	// patience is how long an unreadable roster may be one that is being saved.
	patience = 3 * time.Second
	hurry    = 300 * time.Millisecond // meanwhile
	leisure  = 3 * time.Second        // while another program holds a file
)

// Kinds of obstacles. The view shows one of each.
const (
	ofRoster  = "roster"
	ofTurn    = "turn"
	ofPages   = "pages"
	ofColumns = "columns"
	ofClock   = "clock"
)

// desk is a desk at work.
type desk struct {
	Config
	view    *view
	printer *Printer // nil if nothing is printed

	board    Board
	input    Input // as last read; its Roster is nil before
	outcomes []workbook.Outcome
	owed     bool      // the columns are still to be written
	midway   bool      // it was closed while pages were being made
	answers  stamp     // of the answers as last read
	badSince time.Time // the roster is unreadable since then; zero if it is not
}

// Run scores the roster whenever it is saved, until the context ends, which is
// no error.
func Run(ctx context.Context, c Config) error {
	d := &desk{Config: c, view: newView(c)}
	d.Pages.Watched = true
	if c.Print != nil {
		d.printer = NewPrinter(c.Print, func(page string, err error) {
			if err != nil {
				d.view.say(fmt.Sprintf("%s was not printed: %v", filepath.Base(page), err))
				return
			}
			d.view.say("Printed: " + filepath.Base(page))
		})
	}
	d.view.open()
	err := d.loop(ctx, watch(c.Roster, c.Answers))
	if d.printer != nil {
		left := d.printer.Close()
		for i := range left {
			left[i] = filepath.Base(left[i])
		}
		if len(left) > 0 {
			d.view.say("Not printed: " + strings.Join(left, ", "))
		}
	}
	if ctx.Err() == nil || err != nil && !d.midway {
		return err
	}
	if d.midway {
		d.view.say("Stopped while pages were being made; tenback run makes the rest")
	}
	if d.owed {
		d.view.say(fmt.Sprintf("The columns of the last reading are not in %s; tenback run writes them", filepath.Base(c.Scored)))
	}
	d.view.close(&d.board)
	return nil
}

// loop looks at the roster whenever it may have changed.
func (d *desk) loop(ctx context.Context, roster *file) error {
	var wait time.Duration
	for {
		state, err := roster.next(ctx, wait)
		if err != nil {
			return nil // the context has ended, and nothing was under way
		}
		if state == gone {
			d.badSince = time.Time{}
			d.view.stand(ofRoster, "The roster is not there: it was deleted or renamed, or its drive is not connected. Waiting for it")
			continue
		}
		if wait, err = d.look(ctx); err != nil {
			return err
		}
	}
}

// look reads the roster if its content is new, and does what is due. It returns
// when to look again although nothing has changed; 0 is never. Before the first
// reading an error ends the desk, afterwards only that of the context.
func (d *desk) look(ctx context.Context) (wait time.Duration, err error) {
	now, err := source.FingerprintOf(d.Roster)
	answers := stampOf(d.Answers)
	known := err == nil && d.input.Roster != nil && now == d.input.Roster.Seen && answers == d.answers
	if known {
		d.readable()
		if !d.owed {
			return 0, nil
		}
	}
	release, err := single.Take(d.Out, d.Base)
	if err != nil {
		d.view.stand(ofTurn, "Another tenback is writing results of this roster. Waiting until it is done")
		return hurry, nil
	}
	defer release()
	d.view.stand(ofTurn, "")
	if known {
		return d.columns(ctx), nil
	}
	notes := io.Discard // written once
	if d.input.Roster == nil {
		notes = d.Errs
	}
	input, err := d.Read(notes)
	if err != nil {
		return d.unreadable(err)
	}
	d.answers = answers
	d.readable()
	return d.take(ctx, input)
}

// mayBeSaving reports whether an error may be that of a half-saved file.
func mayBeSaving(err error) bool {
	return slices.ContainsFunc([]error{source.ErrMissing, source.ErrUnreadable, source.ErrEmpty, source.ErrNotWorkbook, source.ErrDamaged},
		func(kind error) bool { return errors.Is(err, kind) })
}

// isEmptyYet reports whether an error is that of a roster without people.
func isEmptyYet(err error) bool {
	return slices.ContainsFunc([]error{source.ErrNoCells, source.ErrNoHeader, source.ErrNoPeople},
		func(kind error) bool { return errors.Is(err, kind) })
}

// unreadable waits for a roster that cannot be read, silently while it may be
// half-saved.
func (d *desk) unreadable(err error) (wait time.Duration, fatal error) {
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
		d.board.Take(Reading{At: time.Now()}) // so that the first people entered are news
	}
	text := fmt.Sprintf("The roster cannot be read: %v. Waiting until it is saved again", err)
	if d.input.Roster != nil {
		text += "; the last reading is kept"
	}
	d.view.stand(ofRoster, text)
	if saving {
		return leisure, nil // another program may release it without a change
	}
	return 0, nil
}

func (d *desk) readable() {
	d.badSince = time.Time{}
	d.view.stand(ofRoster, "")
}

// take makes the pages of a reading, shows what is new and writes the columns.
func (d *desk) take(ctx context.Context, input Input) (wait time.Duration, err error) {
	first := !d.board.Read()
	clock := batch.ClockText(input.Roster)
	if clock != "" {
		clock = strings.ToUpper(clock[:1]) + clock[1:] + "; " + batch.ClockIgnored
	}
	d.view.stand(ofClock, clock)
	at := time.Now()
	outcomes := batch.Score(input.Roster, input.Options, input.Earlier...)
	if first {
		batch.Sweep(d.Out, d.Pages.Path)
	}
	bar := terminal.NewProgress(d.Errs, batch.CountPages(outcomes), !first)
	work, err := d.Pages.Write(ctx, outcomes, &input.Options, input.Person, bar.Step)
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
	d.input, d.outcomes, d.owed = input, outcomes, true
	news := d.board.Take(readingOf(at, input.Roster, outcomes, &input.Options, &work))
	if len(work.Replaced) > 0 {
		d.view.sayOnce("Note: " + batch.NoFont(work.Replaced))
	}
	d.view.reading(&d.board, news)
	for _, f := range work.Failures {
		d.view.say(fmt.Sprintf("No page for %s, %s: %v", f.Outcome.Row.Person.Label(), batch.Place(f.Outcome.Row), f.Err))
	}
	if stale := work.StaleText(); stale != "" && (first || len(news.Lost) > 0) {
		d.view.say("Stale: " + stale)
	}
	if input.Roster.Locked() {
		d.view.sayOnce("Note: " + batch.PagesNotLocked)
	}
	d.hand(news)
	return d.columns(ctx), nil
}

// hand queues the pages of the news for printing.
func (d *desk) hand(news News) {
	if d.printer == nil {
		return
	}
	for _, r := range news.Scored {
		path := filepath.Join(d.Pages.Path, r.Page)
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
		d.view.say(fmt.Sprintf("%s rewritten for a new look and not printed", terminal.Count(news.Made, "page was", "pages were")))
	}
}

// columns writes the copy of the roster with the result columns if it is owed,
// and returns when to try again.
func (d *desk) columns(ctx context.Context) (wait time.Duration) {
	if !d.owed {
		return 0
	}
	if lock := lockBeside(d.Scored); lock != "" {
		d.view.stand(ofColumns, fmt.Sprintf("%s is open in another program (see %s), so the columns wait until it is closed. Pages are still made", filepath.Base(d.Scored), lock))
		return leisure
	}
	// A write that has begun is finished while the desk closes, unless it takes long.
	written, err := workbook.WriteResults(context.WithoutCancel(ctx), d.input.Roster, d.outcomes, d.Scored, workbook.WriteOptions{Scoring: d.input.Options, Words: d.input.Words, BreakSignature: d.BreakSignature})
	switch {
	case errors.Is(err, source.ErrChangedSinceRead):
		return hurry // it is read again
	case err != nil:
		d.view.stand(ofColumns, fmt.Sprintf("The columns wait: %v. Pages are still made", err))
		return leisure
	}
	for _, note := range written.Notes {
		d.view.sayOnce("Note: " + note)
	}
	d.owed = false
	d.view.stand(ofColumns, "")
	return 0
}

// lockBeside returns the name of the file by which an office program marks a
// workbook as open; empty if there is none.
func lockBeside(path string) string {
	dir, name := filepath.Split(path)
	for _, lock := range []string{"~$" + name, ".~lock." + name + "#"} {
		if _, err := os.Lstat(filepath.Join(dir, lock)); err == nil {
			return lock
		}
	}
	return ""
}
