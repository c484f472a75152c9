package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
	"tenback/workbook"
)

// pageWork is what became of the pages of a run.
type pageWork struct {
	batch.Work
	booklets []string // paths of the documents for the printer
	printed  int      // pages in them
}

// writePages brings the pages in a folder up to date.
func (p runPlan) writePages(ctx context.Context, folder *batch.Folder, outcomes []workbook.Outcome, maker *pageMaker, step func()) (work pageWork, err error) {
	defer leaveGarbage()()
	work.Work, err = folder.Write(ctx, outcomes, &p.score, maker.person, step)
	return work, err
}

// pageFolder is the folder of the run's pages.
func (p runPlan) pageFolder() *batch.Folder {
	return &batch.Folder{Path: p.folder(), Jobs: p.jobs, Fresh: p.fresh}
}

// notes are remarks on the pages.
func (w *pageWork) notes() []string {
	if len(w.Replaced) == 0 {
		return nil
	}
	return []string{noFontText(w.Replaced)}
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

// String counts the pages and those written now.
func (w *pageWork) String() string {
	text := terminal.Count(len(w.Made)+w.Kept, "page file", "page files")
	switch {
	case w.Kept == 0:
	case len(w.Made) == 0:
		text += ", unchanged"
	default:
		text += fmt.Sprintf(": %d made, %d unchanged", len(w.Made), w.Kept)
	}
	return text
}

// namesMost is how many names of pages, or letters, are listed in a sentence.
const namesMost = 8

// staleText names the pages that nobody has now; it is empty if there is none.
func (w *pageWork) staleText() string {
	if len(w.Stale) == 0 {
		return ""
	}
	text := strings.Join(w.Stale[:min(namesMost, len(w.Stale))], ", ")
	if more := len(w.Stale) - namesMost; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	if len(w.Stale) == 1 {
		return text + ": made earlier, for somebody who is not scored now; left there"
	}
	return text + ": made earlier, for people who are not scored now; left there"
}
