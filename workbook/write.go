package workbook

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/locked"
	"tenback/workbook/result"
	"tenback/workbook/safefile"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
	"tenback/workbook/splice"
)

// WriteOptions says how results are written.
type WriteOptions struct {
	// InPlace writes into the roster itself, after a dated backup beside it. It must
	// not be [source.Foreign].
	InPlace bool
	// BreakSignature allows writing a signed workbook, which voids the signature.
	BreakSignature bool
	// Scoring is how the outcomes were scored.
	Scoring scoring.Options
	// Now is the time that a backup is named after.
	Now time.Time
	// Words are those of the result columns and their cells; nil is
	// English. Columns of an earlier run in another language are found and brought
	// up to date.
	Words *templates.Set
}

// Written reports what WriteResults did.
type Written struct {
	Path   string   // the workbook with the results
	Backup string   // the dated copy of the roster; empty unless in place
	Signed bool     // the roster was digitally signed; the signature does not hold for what was written
	Notes  []string // harmless things that were left undone, as sentences
}

// ErrSigned reports that the roster is digitally signed and BreakSignature is not set.
var ErrSigned = errors.New("the roster is digitally signed, and the signature would not hold for what is written")

// WriteResults writes the workbook with the result columns to dst: the roster
// as it was, with the columns at the right of everything that each sheet of
// people holds, or in the columns of an earlier run. In place dst is the
// roster itself.
//
// Rows without an outcome get blank result cells. Before the file takes its
// name everything that was there before is compared with the roster; any
// difference, and any failure, leaves what was there.
//
// A text file, an OpenDocument spreadsheet and a template become a new workbook. A roster with a
// password gets a copy with the same password; it is decrypted in memory only.
func WriteResults(ctx context.Context, roster *Roster, outcomes []result.Outcome, dst string, opt WriteOptions) (Written, error) {
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
	if roster.In.Scheme == locked.Agile && roster.Locked() {
		written.Notes = append(written.Notes, noteStandard)
	}
	if err := source.CheckUnchanged(roster); err != nil {
		return Written{}, err
	}
	if opt.InPlace {
		if written.Backup, err = safefile.Backup(roster.Path, opt.Now); err != nil {
			return Written{}, fmt.Errorf("no backup could be made, so nothing was written: %w", err)
		}
	}
	if err := pending.Commit(); err != nil {
		if safefile.InUse(err) {
			return Written{Backup: written.Backup}, fmt.Errorf("%s is open in another program, so the results could not take its place; close it there and run again: %w", dst, err)
		}
		return Written{Backup: written.Backup}, fmt.Errorf("the results could not take their place: %w; is the file open in another program?", err)
	}
	return written, nil
}

// noteStandard warns that the copy is encrypted less strongly than the roster.
const noteStandard = "the roster was encrypted in the newer way (agile); what was written has the same password in the older way (AES-128, SHA-1): " +
	"to have the newer one again, take the password away in your spreadsheet program and set it anew"

// Rehearse does what WriteResults does, but writes nothing. It returns notes on cells
// that would be left as they are, and the error that WriteResults would return because
// of what the roster holds.
func Rehearse(ctx context.Context, roster *Roster, outcomes []result.Outcome, opt WriteOptions) (notes []string, err error) {
	p, err := newPlan(ctx, roster, outcomes, opt)
	if err == nil {
		defer p.src.Close()
		_, err = splice.Rehearse(ctx, p.src, p.src.Size, p.edit)
		err = cmp.Or(err, p.words.Failure())
	}
	if err != nil {
		return nil, fmt.Errorf("the results cannot be written: %w", err)
	}
	return p.notes, nil
}

// plan is a roster and the edit that puts the results into it.
type plan struct {
	src   source.Plain // to be closed
	edit  splice.Edit
	words *sheetwords.Words
	notes []string // for Written
}

func newPlan(ctx context.Context, roster *Roster, outcomes []result.Outcome, opt WriteOptions) (p plan, err error) {
	p.words = sheetwords.Of(opt.Words)
	if p.src, err = source.OpenPlain(roster); err != nil {
		return p, err
	}
	info, err := splice.Inspect(ctx, p.src, p.src.Size)
	if err == nil && info.Signed && !opt.BreakSignature {
		err = ErrSigned
	}
	if err == nil {
		p.edit, p.notes, err = result.Plan(roster, outcomes, &opt.Scoring, info, p.src, p.words)
	}
	if err != nil {
		p.src.Close()
	}
	p.edit.Known = info
	return p, err
}

// writeCopy writes the roster with the results to pending and compares the
// two. The roster is closed again when it returns, so that it can be replaced.
func writeCopy(ctx context.Context, roster *Roster, outcomes []result.Outcome, pending *safefile.Pending, opt WriteOptions) (splice.Report, error) {
	p, err := newPlan(ctx, roster, outcomes, opt)
	if err != nil {
		return splice.Report{}, err
	}
	src := p.src
	defer src.Close()
	compare := func(dst source.Plain) error {
		if err := p.words.Failure(); err != nil {
			return err
		}
		if err := splice.Verify(ctx, src, src.Size, dst, dst.Size, p.edit); err != nil || !opt.InPlace {
			return err
		}
		return compareOldCells(ctx, src, dst, p.edit, roster.In.Scheme != 0)
	}
	if roster.In.Scheme != 0 {
		// The decrypted workbook never goes to a file.
		var plain bytes.Buffer
		report, err := splice.Apply(ctx, src, src.Size, &plain, p.edit)
		report.Notes = append(report.Notes, p.notes...)
		if err != nil {
			return report, err
		}
		if err := compare(source.InMemory(plain.Bytes())); err != nil {
			return report, err
		}
		return report, lockInto(pending, plain.Bytes(), roster.In.Password)
	}
	report, err := splice.Apply(ctx, src, src.Size, pending, p.edit)
	report.Notes = append(report.Notes, p.notes...)
	if err != nil {
		return report, err
	}
	written, err := pending.Stat()
	if err != nil {
		return report, err
	}
	return report, compare(source.Plain{ReaderAt: pending, Size: written.Size()})
}

// lockInto encrypts a workbook, writes it, and reads it back. [locked.Close] has
// opened it again.
func lockInto(pending *safefile.Pending, plain []byte, password string) error {
	raw, err := locked.Close(plain, password)
	if err != nil {
		return fmt.Errorf("it could not be given its password again: %w", err)
	}
	if _, err := pending.Write(raw); err != nil {
		return err
	}
	stored, err := io.ReadAll(io.NewSectionReader(pending, 0, int64(len(raw))+1))
	if err == nil && !bytes.Equal(stored, raw) {
		err = errors.New("the file holds something else than was written")
	}
	return err
}

// checkTarget rejects a target that would overwrite the roster or has the wrong
// extension.
func checkTarget(roster *Roster, dst string, opt WriteOptions) error {
	src := roster.Path
	from, to, foreign := filepath.Ext(src), filepath.Ext(dst), source.Foreign(src)
	switch {
	case foreign != "" && opt.InPlace:
		return fmt.Errorf("%s is %s, which cannot hold result columns; the results go into a workbook beside it", src, foreign)
	case foreign != "" && !strings.EqualFold(to, ".xlsx"):
		return fmt.Errorf("the results of %s are a workbook: the name must end in .xlsx, not %q", foreign, to)
	case foreign == "" && !strings.EqualFold(from, to):
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
	return source.CheckUnchanged(roster)
}

// sameFile reports whether two paths lead to one file; dst may be missing.
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
