package workbook

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/ooxml"
	"tenback/workbook/safefile"
)

// The kinds of failure of Open. Every [*OpenError] wraps one of them.
var (
	ErrMissing     = errors.New("no such file")
	ErrDirectory   = errors.New("a folder, not a file")
	ErrUnreadable  = errors.New("file can't be opened")
	ErrEmpty       = ooxml.ErrEmpty
	ErrLocked      = ooxml.ErrLocked
	ErrPassword    = errors.New("wrong password")
	ErrNotWorkbook = ooxml.ErrNotWorkbook
	ErrDamaged     = ooxml.ErrDamaged
	ErrTooLarge    = ooxml.ErrLimit
	ErrUnsupported = ooxml.ErrUnsupported
	ErrNoCells     = errors.New("no sheet with cells")
	ErrNoSheet     = errors.New("no such sheet")
	ErrNoHeader    = errors.New("no header row")
	ErrNoPeople    = errors.New("nobody in the roster")
	ErrColumn      = errors.New("column can't be named so")
)

// OpenError is why a roster can't be read at all, in one sentence.
type OpenError struct {
	Path  string
	Sheet string // empty if no one sheet is at fault
	Kind  error  // one of the Err values
	Why   string
	Cause error
}

func (e *OpenError) Error() string {
	s := e.Path + ": "
	if e.Sheet != "" {
		s += fmt.Sprintf("sheet %q: ", e.Sheet)
	}
	return s + e.Why
}

// Unwrap gives the kind and the cause, for errors.Is and errors.As.
func (e *OpenError) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// ReadOptions say how a roster is to be read where it leaves that open.
type ReadOptions struct {
	Sheets   []string  // read only these
	TestDate time.Time // for rows without a test date; zero if unknown
	Today    time.Time // no date lies after it; zero is the present day
	// Since is a day that has passed wherever a roster is read, such as that on
	// which the program was made; zero if none is known. Where Today is before it
	// the computer's date is wrong, and no date is held against it.
	Since time.Time
	// Columns rename headers before they are looked at: from the header in
	// the sheet to one that is known, or to "ignore".
	Columns   map[string]string
	DateOrder cell.DateOrder         // of dates typed as text
	SexCodes  map[string]scoring.Sex // what numbers in a column of sexes mean
	// Password asks for the password of a workbook that has one. Its error ends
	// the reading. Where it is nil such a workbook is refused.
	Password func() (string, error)
	// Language tells the language that a cell of a Language column names; an
	// error is a remark on the row. Where it is nil the column is not read.
	Language func(text string) (lang string, err error)
}

// MaxPeople bounds the rows of people in one workbook, and with them the
// memory: about 2 KB a person.
const MaxPeople = 200_000

// Open reads the roster at path. What is wrong with single cells, columns or
// rows is in the Problems of the roster and its rows; an error, an
// [*OpenError] or that of the Password option, means that nothing could be
// read. A file that ends in .csv, .tsv or .txt is read as text, as one sheet
// with the name of the file.
func Open(path string, opt ReadOptions) (*Roster, error) {
	f, size, err := openFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return openReader(path, f, size, opt)
}

// openFile opens a roster's file for reading. Errors are [*OpenError].
func openFile(path string) (f *os.File, size int64, err error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, 0, &OpenError{Path: path, Kind: ErrDirectory, Why: "this is a folder; name the workbook in it"}
	}
	f, info, err := safefile.OpenPlain(path, os.O_RDONLY)
	if err == nil {
		return f, info.Size(), nil
	}
	e := &OpenError{Path: path, Kind: ErrUnreadable, Why: "the file can't be opened; close it in other programs and try again", Cause: err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.Kind, e.Why = ErrMissing, "there is no such file"
	case errors.Is(err, safefile.ErrNotPlain):
		e.Why = "this is no ordinary file; name a workbook"
	case safefile.InUse(err):
		e.Why = "another program has the file open and lets nobody else read it; close it there and run again"
	case errors.Is(err, fs.ErrPermission):
		e.Why = "you are not allowed to read the file"
	}
	return nil, 0, e
}

// openReader is Open on what is open already; path is only for messages.
func openReader(path string, r io.ReaderAt, size int64, opt ReadOptions) (*Roster, error) {
	roster := &Roster{Path: path}
	book, err := openSource(path, r, size, opt, roster)
	if err != nil {
		return nil, err
	}
	hash := sha256.New()
	if _, err := io.Copy(hash, io.NewSectionReader(r, 0, size)); err != nil {
		return nil, &OpenError{Path: path, Kind: ErrUnreadable, Why: "the file can't be read to its end", Cause: err}
	}
	roster.Seen = Fingerprint(hash.Sum(nil))
	if opt.Today.IsZero() {
		opt.Today = time.Now()
	}
	if opt.Today.Before(opt.Since) {
		roster.WrongToday = opt.Today
	}
	rd := &reader{path: path, book: book, opt: opt, words: knownHeadings(), renamed: map[string]string{}, tests: map[string]*scoring.Test{}, timeLimits: map[*scoring.Test][2]time.Duration{},
		roster: roster}
	if err := rd.renameColumns(); err != nil {
		return nil, err
	}
	if err := rd.readPageSettings(); err != nil {
		return nil, err
	}
	if err := rd.readSheets(); err != nil {
		return nil, err
	}
	return rd.roster, nil
}

// fromFile puts a failure of the file itself into an OpenError.
func fromFile(path, sheet string, err error) error {
	var e *ooxml.Error
	if errors.As(err, &e) {
		return &OpenError{Path: path, Sheet: sheet, Kind: e.Kind, Why: e.Plain(), Cause: err}
	}
	return &OpenError{Path: path, Sheet: sheet, Kind: ErrUnreadable, Why: "the file can't be read", Cause: err}
}

// reader reads one workbook.
type reader struct {
	path    string
	book    source
	opt     ReadOptions
	words   *vocabulary
	tests   map[string]*scoring.Test // by the names met, nil for unknown ones; see testNamed
	renamed map[string]string        // headers to others, by headerKey
	roster  *Roster
	people  int
	bytes   int64 // of cells kept
	said    int   // problems of rows
	misses  []miss
	partial string // a row that is a header but for something to score
	across  string // a sheet with a column for each person

	timeLimits map[*scoring.Test][2]time.Duration
}

// miss is a text that is nearly a known header.
type miss struct{ sheet, address, text, known string }

// ignored is the name that a column is given so as not to be used.
const ignored = "ignore"

// renameColumns checks the names that the user gave to columns.
func (rd *reader) renameColumns() error {
	for header, known := range rd.opt.Columns {
		if why := rd.unknownMeaning(known); why != "" {
			return &OpenError{Path: rd.path, Kind: ErrColumn, Why: why}
		}
		rd.renamed[headerKey(header)] = known
	}
	return rd.readMapping()
}

// readSheets reads those sheets that hold people.
func (rd *reader) readSheets() error {
	chosen, err := rd.chooseSheets()
	if err != nil {
		return err
	}
	var found []*sheetReader
	for _, s := range chosen {
		sr, err := rd.survey(s)
		if err != nil {
			return fromFile(rd.path, s.Name, err)
		}
		switch {
		case sr != nil:
			found = append(found, sr)
		case len(rd.opt.Sheets) > 0:
			return rd.noHeader(s.Name)
		}
	}
	if len(found) == 0 {
		return rd.noHeader("")
	}
	if !slices.ContainsFunc(found, func(sr *sheetReader) bool { return !sr.isAddressBook() }) {
		return rd.noHeader(found[0].tab.Name)
	}
	for _, sr := range rd.chooseRosters(found) {
		if err := sr.read(); err != nil {
			return err
		}
	}
	rd.nameGroups()
	rd.comparePeople()
	if rd.said > maxProblems {
		rd.roster.Problems = append(rd.roster.Problems, Problem{
			What: manyProblems.With(maxProblems), Fix: fixManyProblems, Blocking: true})
	}
	if len(rd.roster.Sheets) == 0 {
		return &OpenError{Path: rd.path, Kind: ErrNoPeople, Why: "nobody stands below the header: no row has a name or an ID"}
	}
	return nil
}

// chooseSheets lists the sheets to look at: those asked for, else the visible
// ones with cells, else the hidden ones.
func (rd *reader) chooseSheets() ([]ooxml.Sheet, error) {
	var names []string
	var visible, hidden []ooxml.Sheet
	for _, s := range rd.book.Sheets() {
		names = append(names, s.Name)
		switch {
		case !s.Cells, isOwnSheet(s.Name):
		case s.Hidden:
			hidden = append(hidden, s)
		default:
			visible = append(visible, s)
		}
	}
	if len(visible)+len(hidden) == 0 {
		return nil, &OpenError{Path: rd.path, Kind: ErrNoCells, Why: "the workbook has no sheet with cells, only charts"}
	}
	if len(rd.opt.Sheets) == 0 {
		if len(visible) > 0 {
			rd.tellHidden(hidden)
			return visible, nil
		}
		return hidden, nil
	}
	var chosen []ooxml.Sheet
	for _, name := range rd.opt.Sheets {
		s, ok := sheetNamed(rd.book.Sheets(), name)
		switch {
		case !ok:
			return nil, &OpenError{Path: rd.path, Kind: ErrNoSheet, Why: fmt.Sprintf("there is no sheet %q; the sheets are %s", name, quoted(names))}
		case !s.Cells:
			return nil, &OpenError{Path: rd.path, Sheet: s.Name, Kind: ErrNoCells, Why: "this sheet has no cells, only a chart"}
		}
		if !slices.ContainsFunc(chosen, func(c ooxml.Sheet) bool { return c.Name == s.Name }) {
			chosen = append(chosen, s)
		}
	}
	return chosen, nil
}

// tellHidden says which hidden sheets look like rosters and are not read.
func (rd *reader) tellHidden(hidden []ooxml.Sheet) {
	for _, s := range hidden {
		sr, err := rd.survey(s)
		if err != nil || sr == nil {
			continue
		}
		sr.rows.Close()
		if sr.hasResults() {
			rd.roster.Problems = append(rd.roster.Problems, Problem{Sheet: s.Name,
				What: hiddenSheet, Fix: fixHiddenSheet})
		}
	}
}

func sheetNamed(sheets []ooxml.Sheet, name string) (ooxml.Sheet, bool) {
	for _, same := range []func(a, b string) bool{
		func(a, b string) bool { return a == b },
		func(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) },
	} {
		for _, s := range sheets {
			if same(s.Name, name) {
				return s, true
			}
		}
	}
	return ooxml.Sheet{}, false
}

func quoted(names []string) string {
	var b strings.Builder
	for i, n := range names {
		if i == 20 {
			fmt.Fprintf(&b, " and %d more", len(names)-i)
			break
		}
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%q", n)
	}
	return b.String()
}

// chooseRosters picks, of the sheets with a header, those with a column for a
// test result, and those that tell more of their people; all of them as rosters
// if none has a result.
func (rd *reader) chooseRosters(found []*sheetReader) []*sheetReader {
	if !slices.ContainsFunc(found, (*sheetReader).hasResults) {
		return found
	}
	var chosen []*sheetReader
	for _, sr := range found {
		switch {
		case sr.hasResults():
		case sr.tellsOfPeople():
			sr.isList = true
		default:
			// A result that can't be used may be why it is no roster.
			for _, p := range sr.problems {
				if p.Blocking {
					rd.roster.Problems = append(rd.roster.Problems, p)
				}
			}
			sr.rows.Close()
			continue
		}
		chosen = append(chosen, sr)
	}
	return chosen
}

// tellsOfPeople tells whether a sheet has columns for what is known of people,
// or for how to reach them.
func (sr *sheetReader) tellsOfPeople() bool {
	return slices.ContainsFunc(sr.columns, func(c *sheetColumn) bool {
		return c.Meaning.Role == Birth || c.Meaning.Role == Email || c.Meaning.Role == GuardianEmail || c.Meaning.Role == InputData && c.Meaning.Input.Info().Personal
	})
}

// isAddressBook tells a list that says nothing of people but how to reach them.
// It completes others, and alone it is no roster.
func (sr *sheetReader) isAddressBook() bool {
	reaches := false
	for _, c := range sr.columns {
		switch r := c.Meaning.Role; r {
		case Email, GuardianEmail, PagePassword:
			reaches = true
		case Unknown, Group, TestDate, Other, Audience, Language:
		default:
			if !isPerson(r) {
				return false
			}
		}
	}
	return reaches
}

// noHeader is the error for a sheet, or a whole workbook, without a header.
func (rd *reader) noHeader(sheet string) error {
	why := fmt.Sprintf("no row among the first %d is a header with a name or an ID and something to score; "+
		"looked for headers such as Name, ID, Sex, Date of birth, Test date, %s", headerDepth, exampleHeaders())
	if rd.partial != "" && rd.across == "" {
		why += "; " + rd.partial
	}
	if rd.across != "" {
		why = fmt.Sprintf("the headers seem to stand below one another in sheet %q, with a column for each person; one row for each person is needed: "+
			"copy the table and paste it transposed", rd.across)
	} else if len(rd.misses) > 0 {
		m := rd.misses[0]
		why += fmt.Sprintf("; %q in %s!%s looks like %q", m.text, m.sheet, m.address, m.known)
	}
	return &OpenError{Path: rd.path, Sheet: sheet, Kind: ErrNoHeader, Why: why}
}

// exampleHeaders names the first few result columns.
func exampleHeaders() string {
	var all []string
	for _, t := range fieldtests.All() {
		if len(t.Results) > 0 && len(all) < 3 {
			all = append(all, t.Results[0].Column)
		}
	}
	return strings.Join(all, ", ")
}

// nameGroups gives people of a sheet without a group column the sheet's name
// as their group, where people stand on more than one sheet.
func (rd *reader) nameGroups() {
	if len(rd.roster.Sheets) < 2 {
		return
	}
	for _, s := range rd.roster.Sheets {
		if slices.ContainsFunc(s.Columns, func(c Column) bool { return c.Meaning.Role == Group }) {
			continue
		}
		for i := range s.Rows {
			s.Rows[i].Person.Group, s.Rows[i].SheetGroup = s.Name, true
		}
	}
}
