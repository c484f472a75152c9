package reading

import (
	"crypto/sha256"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// Options say how a roster is to be read where it leaves that open.
type Options struct {
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

// OurColumns knows the result columns that earlier runs left.
type OurColumns interface {
	// Find returns the places of those columns among headers.
	Find(headers []string) []int
	// NamesReport reports whether the column of a header names the page.
	NamesReport(header string) bool
}

// MaxPeople bounds the rows of people in one workbook, and with them the
// memory: about 2 KB a person.
const MaxPeople = 200_000

// Open reads the roster at path. What is wrong with single cells, columns or
// rows is in the Problems of the roster and its rows; an error, an
// [*source.Error] or that of the Password option, means that nothing could be
// read. A file that ends in .csv, .tsv or .txt is read as text, as one sheet
// with the name of the file.
func Open(path string, r io.ReaderAt, size int64, opt Options, ours OurColumns) (*roster.Roster, error) {
	book, err := source.Open(path, r, size, opt.Password)
	if err != nil {
		return nil, err
	}
	read := &roster.Roster{Path: path, In: book.In, Signed: book.Signed, Problems: book.Problems}
	hash := sha256.New()
	if _, err := io.Copy(hash, io.NewSectionReader(r, 0, size)); err != nil {
		return nil, &source.Error{Path: path, Kind: source.ErrUnreadable, Why: "the file can't be read to its end", Cause: err}
	}
	read.Seen = roster.Fingerprint(hash.Sum(nil))
	if opt.Today.IsZero() {
		opt.Today = time.Now()
	}
	if opt.Today.Before(opt.Since) {
		read.WrongToday = opt.Today
	}
	rd := &reader{path: path, book: book, opt: opt, renamed: map[string]string{}, tests: map[string]*scoring.Test{}, timeLimits: map[*scoring.Test][2]time.Duration{},
		roster: read, ours: ours}
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

// reader reads one workbook.
type reader struct {
	path    string
	book    source.Book
	opt     Options
	ours    OurColumns
	tests   map[string]*scoring.Test // by the names met, nil for unknown ones; see testNamed
	renamed map[string]string        // headers to others, by headerKey
	roster  *roster.Roster
	people  int
	bytes   int64 // of cells kept
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
			return &source.Error{Path: rd.path, Kind: source.ErrColumn, Why: why}
		}
		rd.renamed[heading.Key(header)] = known
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
			return source.Fail(rd.path, s.Name, err)
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
	if len(rd.roster.Sheets) == 0 {
		return &source.Error{Path: rd.path, Kind: source.ErrNoPeople, Why: "nobody stands below the header: no row has a name or an ID"}
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
		case !s.Cells, roster.IsOwnSheet(s.Name):
		case s.Hidden:
			hidden = append(hidden, s)
		default:
			visible = append(visible, s)
		}
	}
	if len(visible)+len(hidden) == 0 {
		return nil, &source.Error{Path: rd.path, Kind: source.ErrNoCells, Why: "the workbook has no sheet with cells, only charts"}
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
		s, ok := source.Named(rd.book.Sheets(), name)
		switch {
		case !ok:
			return nil, &source.Error{Path: rd.path, Kind: source.ErrNoSheet, Why: fmt.Sprintf("there is no sheet %q; the sheets are %s", name, source.Quoted(names))}
		case !s.Cells:
			return nil, &source.Error{Path: rd.path, Sheet: s.Name, Kind: source.ErrNoCells, Why: "this sheet has no cells, only a chart"}
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
			rd.roster.Problems = append(rd.roster.Problems, roster.Problem{Sheet: s.Name,
				What: hiddenSheet, Fix: fixHiddenSheet})
		}
	}
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
		return c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.Email || c.Meaning.Role == roster.GuardianEmail || c.Meaning.Role == roster.InputData && c.Meaning.Input.Info().Personal
	})
}

// isAddressBook tells a list that says nothing of people but how to reach them.
// It completes others, and alone it is no roster.
func (sr *sheetReader) isAddressBook() bool {
	reaches := false
	for _, c := range sr.columns {
		switch r := c.Meaning.Role; r {
		case roster.Email, roster.GuardianEmail, roster.PagePassword:
			reaches = true
		case roster.Unknown, roster.Group, roster.TestDate, roster.Other, roster.Audience, roster.Language:
		default:
			if !r.IsPerson() {
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
	return &source.Error{Path: rd.path, Sheet: sheet, Kind: source.ErrNoHeader, Why: why}
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
		if slices.ContainsFunc(s.Columns, func(c roster.Column) bool { return c.Meaning.Role == roster.Group }) {
			continue
		}
		for i := range s.Rows {
			s.Rows[i].Person.Group, s.Rows[i].SheetGroup = s.Name, true
		}
	}
}

// testNamed is [heading.TestNamed] with a cache. A few names stand in a column over and
// over, so they are looked up once.
func (rd *reader) testNamed(name string) (*scoring.Test, bool) {
	if t, ok := rd.tests[name]; ok {
		return t, t != nil
	}
	t, ok := heading.TestNamed(name)
	if len(rd.tests) < testsRemembered && len(name) <= heading.MaxLen {
		rd.tests[name] = t
	}
	return t, ok
}

// testsRemembered bounds the names of tests that are remembered.
const testsRemembered = 1000
