package workbook

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tenback/workbook/safefile"
	"tenback/workbook/splice"
)

// WriteOptions says how results are written.
type WriteOptions struct {
	// InPlace writes into the roster itself, after a dated backup beside it.
	InPlace bool
	// Now is the time that a backup is named after.
	Now time.Time
	// Mark puts a cell comment on each cell that could not be used, which says
	// why and what to type, and on the headers of the result columns. Comments
	// of an earlier run are brought up to date; those of other people, and
	// those that someone has changed since, stay. Without Mark no comment is
	// touched.
	Mark bool
}

// Written tells what WriteResults did.
type Written struct {
	Path   string   // the workbook with the results
	Backup string   // the dated copy of the roster; empty unless in place
	Signed bool     // the roster was digitally signed; the signature does not hold for what was written
	Notes  []string // harmless things that were left undone, as sentences
}

// ErrChangedSinceRead tells that the roster was saved again after it had been
// read.
var ErrChangedSinceRead = errors.New("the roster has been changed since it was read")

// WriteResults writes the workbook with the result columns to dst: the roster
// as it was, with the columns at the right of everything that each sheet of
// people holds, or in the columns of an earlier run. In place dst is the
// roster itself.
//
// Rows without an outcome get blank result cells. Before the file takes its
// name everything that was there before is compared with the roster, in place
// also as another reader sees it; any difference, and any failure, leaves what
// was there.
func WriteResults(ctx context.Context, roster *Roster, outcomes []Outcome, dst string, opt WriteOptions) (Written, error) {
	if err := checkTarget(roster, dst, opt); err != nil {
		return Written{}, err
	}
	pending, err := safefile.Create(dst)
	if err != nil {
		return Written{}, fmt.Errorf("the results cannot be written: %w", err)
	}
	defer pending.Discard()
	report, err := writeCopy(ctx, roster, outcomes, pending, opt)
	if err != nil {
		return Written{}, fmt.Errorf("the results were not written: %w", err)
	}
	written := Written{Path: dst, Signed: report.Signed, Notes: report.Notes}
	if err := checkUnchanged(roster); err != nil {
		return Written{}, err
	}
	if opt.InPlace {
		if written.Backup, err = safefile.Backup(roster.Path, opt.Now); err != nil {
			return Written{}, fmt.Errorf("no backup could be made, so nothing was written: %w", err)
		}
	}
	if err := pending.Commit(); err != nil {
		return Written{Backup: written.Backup}, fmt.Errorf("the results could not take their place: %w; is the file open in another program?", err)
	}
	return written, nil
}

// writeCopy writes the roster with the results to pending and compares the
// two. The roster is closed again when it returns, so that it can be replaced.
func writeCopy(ctx context.Context, roster *Roster, outcomes []Outcome, pending *safefile.Pending, opt WriteOptions) (splice.Report, error) {
	src, err := os.Open(roster.Path)
	if err != nil {
		return splice.Report{}, err
	}
	defer src.Close()
	stat, err := src.Stat()
	if err != nil {
		return splice.Report{}, err
	}
	info, err := splice.Inspect(ctx, src, stat.Size())
	if err != nil {
		return splice.Report{}, err
	}
	edits, err := planEdits(roster, outcomes, info)
	if err != nil {
		return splice.Report{}, err
	}
	if opt.Mark {
		for i := range edits {
			edits[i].mark(roster)
		}
	}
	edit := spliceEdit(edits)
	report, err := splice.Apply(ctx, src, stat.Size(), pending, edit)
	if err != nil {
		return report, err
	}
	written, err := pending.Stat()
	if err != nil {
		return report, err
	}
	if err := splice.Verify(ctx, src, stat.Size(), pending, written.Size(), edit); err != nil {
		return report, err
	}
	if !opt.InPlace {
		return report, nil
	}
	return report, compareOldCells(ctx, roster.Path, pending.Name(), edits)
}

// checkTarget refuses a target that would harm the roster or make a workbook
// that its program does not open.
func checkTarget(roster *Roster, dst string, opt WriteOptions) error {
	src := roster.Path
	if from, to := filepath.Ext(src), filepath.Ext(dst); !strings.EqualFold(from, to) {
		return fmt.Errorf("the results are a copy of the roster and keep its kind: the name must end in %s, not %q", from, to)
	}
	same, err := sameFile(src, dst)
	switch {
	case err != nil:
		return err
	case same && !opt.InPlace:
		return fmt.Errorf("%s is the roster itself; choose another name, or write in place", dst)
	case !same && opt.InPlace:
		return fmt.Errorf("writing in place goes to %s, not to %s", src, dst)
	}
	return checkUnchanged(roster)
}

// checkUnchanged refuses a roster that was saved after it was read, for its
// rows may have moved.
func checkUnchanged(roster *Roster) error {
	now, err := FingerprintOf(roster.Path)
	if err != nil {
		return err
	}
	if now != roster.Seen {
		return fmt.Errorf("%s: %w; nothing was written: run again", roster.Path, ErrChangedSinceRead)
	}
	return nil
}

// sameFile tells whether two paths lead to one file; dst may be missing.
func sameFile(src, dst string) (bool, error) {
	a, err := os.Stat(src)
	if err != nil {
		return false, err
	}
	b, err := os.Stat(dst)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	return os.SameFile(a, b), nil
}
