package main

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"sync"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/manifest"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/pdfreport"
	"tenback/workbook"
)

// pageWork tells what became of the pages of a run.
type pageWork struct {
	made     []*workbook.Outcome // in the order of the roster
	kept     int                 // lay there already, as they would be made
	failures []batch.Failure
	stale    []manifest.Page // of earlier runs, of nobody who has a page now
	notes    []string
	booklets []string // paths of the documents for the printer
	printed  int      // pages in them
}

// waitingMost is how many pages wait for the disk at most.
const waitingMost = 32

// writePages makes the pages that do not lie there already. Where it is stopped
// the next run goes on from what was made.
func (p runPlan) writePages(ctx context.Context, outcomes []workbook.Outcome, maker *pageMaker, step func()) (pageWork, error) {
	var work pageWork
	if err := os.MkdirAll(p.folder(), 0o700); err != nil {
		return work, fmt.Errorf("the folder for the reports cannot be made: %w", err)
	}
	secret, err := personkey.LoadOrMake(p.folder())
	if err != nil {
		return work, err
	}
	account, doubt := manifest.Open(p.folder())
	if doubt != nil {
		work.notes = append(work.notes, doubt.Error())
	}
	build, err := version.Build()
	if err != nil {
		work.notes = append(work.notes, fmt.Sprintf("%v, so every page is made anew", err))
	}
	anew := p.fresh || err != nil
	defer leaveGarbage()()
	var mu sync.Mutex
	madeNow := map[*workbook.Outcome]bool{} // false for those that lay there
	replaced := map[rune]bool{}             // letters that no font has
	done := func(o *workbook.Outcome, made bool, letters []rune) {
		mu.Lock()
		defer mu.Unlock()
		madeNow[o] = made
		for _, r := range letters {
			replaced[r] = true
		}
	}
	// While some pages wait for the disk, others are drawn.
	drawing := make(chan struct{}, p.jobs)
	draw := func(page *bytes.Buffer, person pdfreport.Person) (pdfreport.Report, error) {
		drawing <- struct{}{}
		defer func() { <-drawing }()
		return pdfreport.WritePerson(page, person)
	}
	buffers := sync.Pool{New: func() any { return new(bytes.Buffer) }}
	work.failures, err = batch.Pages(ctx, outcomes, p.jobs+waitingMost, func(o *workbook.Outcome) error {
		person := maker.person(o)
		person.Key = string(secret.Of(o.Row))
		from, err := manifest.Of(build, person)
		if err != nil {
			return err
		}
		if !anew && account.Current(o.Report, from) {
			done(o, false, nil)
			return nil
		}
		page := buffers.Get().(*bytes.Buffer)
		defer buffers.Put(page)
		page.Reset()
		drawn, err := draw(page, person)
		if err != nil {
			return err
		}
		if err := account.Write(manifest.Page{File: o.Report, Person: person.Key, MadeFrom: from, Program: person.Program}, page.Bytes()); err != nil {
			return err
		}
		done(o, true, drawn.Replaced)
		return nil
	}, step)
	for _, f := range work.failures {
		f.Outcome.Report = ""
	}
	wanted := map[string]bool{}
	for i := range outcomes {
		o := &outcomes[i]
		wanted[o.Report] = true
		switch made, finished := madeNow[o]; {
		case made:
			work.made = append(work.made, o)
		case finished:
			work.kept++
		}
	}
	if len(replaced) > 0 {
		work.notes = append(work.notes, noFontText(slices.Collect(maps.Keys(replaced))))
	}
	work.stale = account.Stale(wanted)
	if err := account.Save(); err != nil {
		work.notes = append(work.notes, err.Error())
	}
	return work, err
}

// noFontText tells which letters no font has.
func noFontText(letters []rune) string {
	var names []string
	for _, r := range slices.Compact(slices.Sorted(slices.Values(letters))) {
		names = append(names, string(r))
	}
	text := strings.Join(names[:min(namesMost, len(names))], " ")
	if more := len(names) - namesMost; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return "no font here has " + text + "; a box stands in place"
}

// countPages counts the people who have a page.
func countPages(outcomes []workbook.Outcome) int {
	n := 0
	for i := range outcomes {
		if outcomes[i].Report != "" {
			n++
		}
	}
	return n
}

// String tells how many pages there are and how many of them were made now.
func (w *pageWork) String() string {
	text := terminal.Count(len(w.made)+w.kept, "page file", "page files")
	switch {
	case w.kept == 0:
	case len(w.made) == 0:
		text += ", unchanged"
	default:
		text += fmt.Sprintf(": %d made, %d unchanged", len(w.made), w.kept)
	}
	return text
}

// namesMost is how many names of pages, or letters, are listed in a sentence.
const namesMost = 8

// staleText names the pages that nobody has now; it is empty if there is none.
func (w *pageWork) staleText() string {
	if len(w.stale) == 0 {
		return ""
	}
	var names []string
	for _, p := range w.stale[:min(namesMost, len(w.stale))] {
		names = append(names, p.File)
	}
	text := strings.Join(names, ", ")
	if more := len(w.stale) - len(names); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	if len(w.stale) == 1 {
		return text + ": made earlier, for somebody who is not scored now; left there"
	}
	return text + ": made earlier, for people who are not scored now; left there"
}
