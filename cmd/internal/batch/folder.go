package batch

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"tenback/cmd/internal/personkey"
	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/safefile"
)

// MaxPage bounds a page's size in bytes; those made here are far smaller.
const MaxPage = 20 << 20

// Folder is a folder with one page per person.
type Folder struct {
	Path string
	// Watched keeps the source of each page in memory, so that the next Write
	// does not draw it again.
	Watched bool

	mu    sync.Mutex
	drawn map[string]drawn // by file name; only if Watched
}

// drawn is what a page was drawn from, and the checksum of its file.
type drawn struct {
	from source
	sum  [sha256.Size]byte
}

// source determines a page. The score and the review follow from the options
// and the entries, so the person here has neither.
type source struct {
	person  person.Person
	words   string
	options scoring.Options
	entries []string // as [Entered] writes them: the visit, then those it is compared with
}

// Work reports what became of the pages.
type Work struct {
	Made     []*workbook.Outcome // in the order of the roster
	Kept     int                 // unchanged
	Unscored int                 // pages without a number
	Failures []Failure
	Stale    []string // file names of earlier pages whose people have none now
	Replaced []rune   // characters that no font has
}

// accountFile is the list of pages that version 0.1.0 kept in the folder. It
// holds people's names and is of no more use.
const accountFile = "tenback-pages.json"

// waitingMost is how many pages wait for the disk at most, while others are
// drawn.
const waitingMost = 32

// Write makes the folder if needed and brings its pages up to date. It draws
// each page and writes it unless the file holds the same bytes. The file name of
// a page that fails is taken from its outcome. The error is that of the context,
// or one of the folder; a later Write goes on from there.
func (f *Folder) Write(ctx context.Context, outcomes []workbook.Outcome, options *scoring.Options, about func(*workbook.Outcome) person.Person, step func()) (Work, error) {
	var work Work
	if err := os.MkdirAll(f.Path, 0o700); err != nil {
		return work, fmt.Errorf("the folder for the reports cannot be made: %w", err)
	}
	secret, err := personkey.LoadOrMake(f.Path)
	if err != nil {
		return work, err
	}
	_ = ForgetAccount(f.Path) // the command forget reports what hinders it
	defer leaveGarbage()()
	written := map[*workbook.Outcome]bool{} // false for unchanged pages
	replaced := map[rune]bool{}
	drawing := make(chan struct{}, runtime.GOMAXPROCS(0))
	buffers := sync.Pool{New: func() any { return new(bytes.Buffer) }}
	work.Failures, err = Pages(ctx, outcomes, cap(drawing)+waitingMost, func(o *workbook.Outcome) error {
		p := about(o)
		p.Key = string(secret.Of(o.Row))
		page := buffers.Get().(*bytes.Buffer)
		defer buffers.Put(page)
		page.Reset()
		var from source
		if f.Watched {
			from = sourceOf(o, p, options)
		}
		changed, report := false, kit.Report{}
		if !f.isCurrent(o.Report, from) {
			drawing <- struct{}{}
			var err error
			report, err = person.Write(page, p)
			<-drawing
			if err != nil {
				return err
			}
			if changed, err = f.put(o.Report, page.Bytes(), from); err != nil {
				return err
			}
		}
		f.mu.Lock()
		defer f.mu.Unlock()
		written[o] = changed
		for _, r := range report.Replaced {
			replaced[r] = true
		}
		return nil
	}, step)
	for _, failed := range work.Failures {
		failed.Outcome.Report = ""
	}
	wanted := map[string]bool{}
	for i := range outcomes {
		o := &outcomes[i]
		wanted[o.Report] = true
		switch changed, finished := written[o]; {
		case changed:
			work.Made = append(work.Made, o)
		case finished:
			work.Kept++
		}
		if o.Report != "" && o.LeftOut() {
			work.Unscored++
		}
	}
	work.Replaced = slices.Sorted(maps.Keys(replaced))
	work.Stale = f.stale(wanted)
	return work, err
}

// put writes a page unless its file holds the same bytes already.
func (f *Folder) put(name string, page []byte, from source) (changed bool, err error) {
	path := filepath.Join(f.Path, name)
	old, err := safefile.ReadPlain(path, MaxPage)
	if changed = err != nil || !bytes.Equal(old, page); changed {
		if err := safefile.WriteBytes(path, page); err != nil {
			return false, err
		}
	}
	if f.Watched {
		f.mu.Lock()
		defer f.mu.Unlock()
		if f.drawn == nil {
			f.drawn = map[string]drawn{}
		}
		f.drawn[name] = drawn{from, sha256.Sum256(page)}
	}
	return changed, nil
}

// isCurrent reports whether the page was drawn from the same source and its
// file has not changed since.
func (f *Folder) isCurrent(name string, from source) bool {
	f.mu.Lock()
	last, known := f.drawn[name]
	f.mu.Unlock()
	if !known || !reflect.DeepEqual(last.from, from) {
		return false
	}
	page, err := safefile.ReadPlain(filepath.Join(f.Path, name), MaxPage)
	return err == nil && sha256.Sum256(page) == last.sum
}

func sourceOf(o *workbook.Outcome, p person.Person, options *scoring.Options) source {
	s := source{person: p, words: p.Words.Fingerprint(), options: *options, entries: []string{Entered(&o.Row.Entry)}}
	if p.Review != nil {
		for _, visit := range p.Review.Line {
			s.entries = append(s.entries, Entered(visit.Score.Entry()))
		}
	}
	s.person.Score, s.person.Review, s.person.Words = nil, nil, nil
	return s
}

// Entered writes all that an entry holds but the cells it was read from.
func Entered(e *scoring.Entry) string {
	var b strings.Builder
	values := func(v *scoring.Values) {
		for in := range scoring.InputCount {
			if q, ok := v.Get(in); ok {
				fmt.Fprint(&b, " ", in.Info().Name, " ", q.Amount)
			}
		}
	}
	fmt.Fprint(&b, e.Born, e.Tested, e.YearsAtMost, " ", e.Mornings)
	for _, n := range e.Notes {
		fmt.Fprint(&b, " note ", n.Kind, n.DuringTest, n.Text)
	}
	for _, d := range e.Doubts {
		fmt.Fprint(&b, " in doubt ", d.Inputs)
	}
	if e.HealthUnread != "" {
		fmt.Fprint(&b, " health unread")
	}
	if e.MayBeChild {
		fmt.Fprint(&b, " of a school")
	}
	values(&e.Values)
	for i := range e.Trials {
		fmt.Fprint(&b, "; ", e.Trials[i].Test.ID)
		if t := &e.Trials[i]; t.Attempts > 0 {
			fmt.Fprint(&b, " ", t.Attempt, "/", t.Attempts)
		}
		values(&e.Trials[i].Values)
	}
	return b.String()
}

// stale lists the pages in the folder that are not among those wanted. Only a
// file with a person's key is a page.
func (f *Folder) stale(wanted map[string]bool) []string {
	inLower := map[string]string{}
	for name := range wanted {
		inLower[strings.ToLower(name)] = name
	}
	entries, _ := os.ReadDir(f.Path) // sorted; the pages were just written there
	var all []string
	for _, e := range entries {
		name := e.Name()
		if wanted[name] || !e.Type().IsRegular() || !strings.HasSuffix(name, ".pdf") || f.isSame(name, inLower[strings.ToLower(name)]) {
			continue
		}
		page, err := safefile.ReadPlain(filepath.Join(f.Path, name), MaxPage)
		if err != nil {
			continue
		}
		if _, err := kit.ReadKey(page); err == nil {
			all = append(all, name)
		}
	}
	return all
}

// isSame reports whether two names that differ in case only are one file, as on
// a disk that ignores case.
func (f *Folder) isSame(name, other string) bool {
	if other == "" {
		return false
	}
	a, err := os.Stat(filepath.Join(f.Path, name))
	b, err2 := os.Stat(filepath.Join(f.Path, other))
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// ForgetAccount removes the list of pages that version 0.1.0 kept in a folder.
func ForgetAccount(folder string) error {
	if err := os.Remove(filepath.Join(folder, accountFile)); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Sweep removes the temporary files of killed runs. The folder of the pages
// belongs to this run alone. Beside the roster another run may be at work, so only
// files older than a day go.
func Sweep(out, pages string) {
	safefile.Sweep(pages, 0)
	safefile.Sweep(out, 24*time.Hour)
}
