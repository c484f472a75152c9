// Package reading makes a roster of a workbook: it finds the columns of each sheet
// and reads each row into an entry and problems.
package reading

import (
	"crypto/sha256"
	"fmt"
	"io"
	"slices"
	"time"

	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/result"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// Options are what the user knows about a roster.
type Options struct {
	Sheets   []string  // read only these
	TestDate time.Time // for rows without a test date; zero if unknown
	Today    time.Time // the last possible date; zero is the present day
	// Since is a day in the past, such as the date of the build; zero if none is
	// known. If Today is before Since, the system clock is wrong and future-date
	// checks are skipped.
	Since time.Time
	// Columns renames headers: from the header in the sheet to a known one, or to
	// "ignore".
	Columns  map[string]string
	Answers  roster.Answers       // to questions about the roster; Columns win over them
	Settings roster.SettingValues // given by options; they win over those of the workbook
	// Password asks for the password of a workbook that has one; its error ends
	// the reading. If it is nil, such a workbook is refused.
	Password func() (string, error)
	// Language returns the language that a cell of a Language column names; an
	// error becomes a remark on the row. If it is nil, the column is not read.
	Language func(text string) (lang string, err error)
}

// MaxPeople is the most rows of people in a workbook. It bounds the memory: about
// 2 KB a person.
const MaxPeople = 200_000

// Open reads a roster. The Problems of the roster and its rows list what is wrong
// with single cells, columns or rows. An error means that nothing could be read:
// an [*source.Error], or that of the Password option. A path that ends in .csv,
// .tsv or .txt is a text file, read as one sheet.
func Open(path string, r io.ReaderAt, size int64, opt Options) (*roster.Roster, error) {
	book, err := source.Open(path, r, size, opt.Password)
	if err != nil {
		return nil, err
	}
	read := &roster.Roster{Path: path, In: book.In, Signed: book.Signed, Problems: book.Problems, Unused: map[string]bool{}}
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
	rd := &reader{path: path, opt: opt, budget: budget{path: path}, Workbook: columns.Workbook{
		Book: book, Roster: read, Answers: &opt.Answers, Names: header.Names{Renamed: map[string]string{}},
		Facts: columns.Facts{Today: opt.Today, TestDate: opt.TestDate, Dates: opt.dateContext(book.Date1904()), Text: book.In.Text}}}
	if rd.Named, err = book.NamedCells(result.AnchorPrefix); err != nil {
		return nil, source.Fail(path, "", err)
	}
	if err := rd.renameColumns(); err != nil {
		return nil, err
	}
	if err := rd.readSettings(); err != nil {
		return nil, err
	}
	if err := rd.readSheets(); err != nil {
		return nil, err
	}
	return read, nil
}

type reader struct {
	columns.Workbook
	path   string
	opt    Options
	budget budget
}

// renameColumns collects the new names of columns.
func (rd *reader) renameColumns() error {
	for name, known := range rd.opt.Columns {
		if why := columns.UnknownMeaning(known); why != "" {
			return &source.Error{Path: rd.path, Kind: source.ErrColumn, Why: why}
		}
		rd.Names.Renamed[heading.Key(name)] = known
		rd.OptionKeys = append(rd.OptionKeys, heading.Key(name))
	}
	return rd.readMapping()
}

// readSheets reads the sheets that hold people.
func (rd *reader) readSheets() error {
	chosen, err := rd.chooseSheets()
	if err != nil {
		return err
	}
	var found []*columns.Survey
	for _, tab := range chosen {
		s, err := rd.Survey(tab)
		if err != nil {
			return source.Fail(rd.path, tab.Name, err)
		}
		switch {
		case s != nil:
			found = append(found, s)
		case len(rd.opt.Sheets) > 0:
			return rd.noHeader(tab.Name)
		}
	}
	if len(found) == 0 {
		return rd.noHeader("")
	}
	if !slices.ContainsFunc(found, func(s *columns.Survey) bool { return !s.Columns.OnlyReach() }) {
		return rd.noHeader(found[0].Tab.Name)
	}
	for _, s := range rd.chooseRosters(found) {
		if err := rd.readSheet(s); err != nil {
			return err
		}
		rd.Roster.Problems = append(rd.Roster.Problems, s.Problems...)
		switch {
		case len(s.Sheet.Rows) == 0:
		case s.IsList:
			rd.Roster.Lists = append(rd.Roster.Lists, s.Sheet)
		default:
			rd.Roster.Sheets = append(rd.Roster.Sheets, s.Sheet)
		}
	}
	rd.tellLostSheets()
	nameGroups(rd.Roster.Sheets)
	if len(rd.Roster.Sheets) == 0 {
		return &source.Error{Path: rd.path, Kind: source.ErrNoPeople, Why: "no row below the header has a name or an ID"}
	}
	return nil
}

// chooseSheets returns the sheets asked for, else the visible ones with cells,
// else the hidden ones.
func (rd *reader) chooseSheets() ([]ooxml.Sheet, error) {
	var names []string
	var visible, hidden []ooxml.Sheet
	for _, s := range rd.Book.Sheets() {
		names = append(names, s.Name)
		switch {
		case !s.Cells, roster.IsOwnSheet(s.Name), isGuide(s.Name):
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
		s, ok := source.Named(rd.Book.Sheets(), name)
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

// tellHidden lists the hidden sheets that look like rosters and are not read.
func (rd *reader) tellHidden(hidden []ooxml.Sheet) {
	for _, tab := range hidden {
		s, err := rd.Survey(tab)
		if err != nil || s == nil {
			continue
		}
		s.Rows.Close()
		if s.Columns.HasResults() {
			rd.Roster.Problems = append(rd.Roster.Problems, roster.Problem{Sheet: tab.Name,
				What: hiddenSheet, Fix: fixHiddenSheet})
		}
	}
}

// chooseRosters picks the sheets with a column for a result, and as lists those
// that describe their people. Without any result column all are rosters.
func (rd *reader) chooseRosters(found []*columns.Survey) []*columns.Survey {
	if !slices.ContainsFunc(found, func(s *columns.Survey) bool { return s.Columns.HasResults() }) {
		return found
	}
	var chosen []*columns.Survey
	for _, s := range found {
		switch {
		case s.Columns.HasResults():
		case s.Columns.TellOfPeople():
			s.IsList = true
		default:
			// An unusable result column may be why it is no roster.
			for _, p := range s.Problems {
				if p.Blocking {
					rd.Roster.Problems = append(rd.Roster.Problems, p)
				}
			}
			s.Rows.Close()
			continue
		}
		chosen = append(chosen, s)
	}
	return chosen
}

// nameGroups uses the name of a sheet without a group column as the group of its
// people, if several sheets have people.
func nameGroups(sheets []*roster.Sheet) {
	if len(sheets) < 2 {
		return
	}
	for _, s := range sheets {
		if slices.ContainsFunc(s.Columns, func(c roster.Column) bool { return c.Meaning.Role == roster.Group }) {
			continue
		}
		for i := range s.Rows {
			s.Rows[i].Person.Group, s.Rows[i].SheetGroup = s.Name, true
		}
	}
}

// noHeader returns the error for a sheet, or a whole workbook, without a header.
func (rd *reader) noHeader(sheet string) error {
	err := &source.Error{Path: rd.path, Sheet: sheet, Kind: source.ErrNoHeader, Why: rd.Misses.Explain()}
	if len(rd.Unheaded.Sheets) > 0 {
		rd.Unheaded.Path, rd.Unheaded.In = rd.path, rd.Roster.In
		err.Cause = &rd.Unheaded
	}
	return err
}

// dateContext returns what is known about a date on a sheet besides its cell. The
// latest day is tomorrow, which today may be elsewhere.
func (opt *Options) dateContext(date1904 bool) cell.DateContext {
	ctx := cell.DateContext{Date1904: date1904, Latest: opt.Today.AddDate(0, 0, 1)}
	if opt.Today.Before(opt.Since) {
		ctx.Latest, ctx.Ahead = opt.Since, true
	}
	return ctx
}
