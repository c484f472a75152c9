// Package mail brings pages to people. Rules choose who gets which page at what
// address, a Letter is the message, Drafts are messages in a folder, a Run sends
// them, and the Ledger records what became of each.
//
// No page may reach the wrong person. An address is taken only from the person's
// own cells, and a page only if the person's key is in it. A person for whom
// anything can be read in two ways is left out, and the cell is named.
package mail

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/filename"
	"tenback/cmd/internal/personkey"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/cell"
	"tenback/workbook/people"
	"tenback/workbook/safefile"
)

// Item is a page on its way to a person.
type Item struct {
	Outcome  *workbook.Outcome // without a score
	Key      personkey.Key
	Name     string // of the person
	Page     string // file name
	SHA256   string // of the page
	To       string // address
	Guardian bool   // the address is that of a parent or guardian
	Audience templates.Audience
	Password string // that the roster gives for the page; empty if none
}

// Left is a person without a message, and the reason.
type Left struct {
	Outcome *workbook.Outcome
	Problem workbook.Problem
}

// Rules decide who gets which page at what address.
type Rules struct {
	Secret      personkey.Secret
	Folder      string // of the pages
	Today       time.Time
	AllowDirect bool // people under 18 without a guardian's address get their page themselves
	AllowShared bool // several people may have one address of their own
	Lock        bool // pages get passwords
	// Audience returns who reads a person's page.
	Audience func(*workbook.Outcome) templates.Audience
}

// ErrNoPages is returned where no row names a page.
var ErrNoPages = errors.New("no row has a page in the result column Report")

// Choose returns the pages that go to people and the people left out, in the order
// of the roster.
func (r *Rules) Choose(roster *workbook.Roster) (items []Item, left []Left, err error) {
	visits := people.Visits(roster)
	outcomes := make([]workbook.Outcome, len(visits))
	keys := make([]personkey.Key, len(visits))
	pages := map[string]int{}           // how many people are listed with a page
	people := map[personkey.Key][]int{} // visits by key
	for i, v := range visits {
		outcomes[i] = workbook.Outcome{Visit: v}
		keys[i] = r.Secret.Of(v.Row)
		pages[strings.ToLower(v.Row.Report)]++
		people[keys[i]] = append(people[keys[i]], v.Person)
	}
	if pages[""] == len(visits) {
		return nil, nil, ErrNoPages
	}
	for i := range visits {
		o := &outcomes[i]
		item := Item{Outcome: o, Key: keys[i], Name: o.Row.Person.Label(), Page: o.Row.Report, Audience: r.Audience(o)}
		problem := r.tellApart(o, pages[strings.ToLower(item.Page)], people[item.Key])
		if problem == nil && SaysFuture(roster, o.Row) {
			problem = at(o, "a date of this person is in the future, and today's date decides who is under 18", "correct the date, or that of this computer")
		}
		for _, step := range []func(*Item) *workbook.Problem{r.address, r.password, r.page} {
			if problem == nil {
				problem = step(&item)
			}
		}
		if problem != nil {
			left = append(left, Left{o, *problem})
			continue
		}
		items = append(items, item)
	}
	if !r.AllowShared {
		items, left = holdShared(items, left)
	}
	return items, left, nil
}

// holdShared leaves out the people whose own address is that of another person too, as
// after a cell was filled down. A parent's address may be that of several children.
func holdShared(items []Item, left []Left) ([]Item, []Left) {
	owners := map[string]map[personkey.Key]bool{}
	for i := range items {
		if to := strings.ToLower(items[i].To); !items[i].Guardian {
			if owners[to] == nil {
				owners[to] = map[personkey.Key]bool{}
			}
			owners[to][items[i].Key] = true
		}
	}
	var kept []Item
	for _, item := range items {
		n := len(owners[strings.ToLower(item.To)])
		if item.Guardian || n < 2 {
			kept = append(kept, item)
			continue
		}
		left = append(left, Left{item.Outcome, *in(item.Outcome.Row.Person.Reached().Email, fmt.Sprintf("%d people have this address", n),
			"give each person an address of their own; if all of them agree, --allow-shared sends their pages there")})
	}
	return kept, left
}

// at returns a problem of the person's row.
func at(o *workbook.Outcome, what, fix string) *workbook.Problem {
	return &workbook.Problem{Sheet: o.Row.Sheet, Cell: o.Row.Person.NameCell, Read: o.Row.Person.Label(), What: scoring.Verbatim(what), Fix: scoring.Verbatim(fix), Blocking: true}
}

// in returns a problem of a typed cell.
func in(t workbook.Typed, what, fix string) *workbook.Problem {
	cut := strings.LastIndex(t.Cell, "!")
	return &workbook.Problem{Sheet: t.Cell[:cut], Cell: t.Cell[cut+1:], Read: t.Text, What: scoring.Verbatim(what), Fix: scoring.Verbatim(fix), Blocking: true}
}

func doubted(t workbook.Typed, d *cell.Doubt) *workbook.Problem {
	return in(t, d.What.String(), d.Fix.String())
}

// tellApart checks that the page and the key belong to one person.
func (r *Rules) tellApart(o *workbook.Outcome, sharing int, persons []int) *workbook.Problem {
	page := o.Row.Report
	for _, line := range o.More {
		if line.Row.Report != page {
			return at(o, "the rows of this person name different pages", "score the roster again with tenback run")
		}
	}
	for _, person := range persons[1:] {
		if person != persons[0] {
			return at(o, "another person has the same name, and no ID or date of birth tells them apart", "add an ID or the date of birth to both, and score the roster again with tenback run")
		}
	}
	switch {
	case o.Withheld:
		return at(o, "there is no consent", "type yes in the column of consent once it is given, and score the roster again with tenback run")
	case page == "":
		return at(o, "this person has no page", "tenback check shows what to mend in the row")
	case !filename.IsPlain(page) || strings.HasPrefix(page, ".") || !strings.HasSuffix(page, ".pdf"):
		return at(o, fmt.Sprintf("%q in the column Report is not the file name of a page", page), "score the roster again with tenback run")
	case sharing > 1:
		return at(o, fmt.Sprintf("the column Report gives the page %q to several people", page), "score the roster again with tenback run")
	}
	return nil
}

// SaysFuture reports whether a date in the row, or that of its sheet, is in the
// future.
func SaysFuture(roster *workbook.Roster, row *workbook.Row) bool {
	about := func(p workbook.Problem) bool { return cell.SaysFuture(p.What) }
	return slices.ContainsFunc(row.Problems, about) ||
		slices.ContainsFunc(roster.Problems, func(p workbook.Problem) bool { return p.Sheet == row.Sheet && about(p) })
}

// minority is whether a person is under 18.
type minority int

const (
	adult minority = iota
	youth
	unknownAge
)

// isMinor reports whether a person is under 18: today if the date of birth is
// known, else on the test day.
func (r *Rules) isMinor(o *workbook.Outcome) minority {
	e := &o.Row.Entry
	if !e.Born.IsZero() {
		if age, err := scoring.AgeOn(e.Born, r.Today); err == nil {
			return ofAge(age)
		}
	}
	if age, ok := e.Get(scoring.Age); ok {
		return ofAge(age.Amount)
	}
	return unknownAge
}

func ofAge(years float64) minority {
	if scoring.IsYouth(years) {
		return youth
	}
	return adult
}

// maxName bounds a name in characters, because ledger and passwords hold it in one
// line.
const maxName = 200

// address sets the address: a guardian's for people under 18, else the person's
// own. A person of unknown age counts as under 18, unless at a workplace.
func (r *Rules) address(item *Item) *workbook.Problem {
	o := item.Outcome
	contact := o.Row.Person.Reached()
	minor := r.isMinor(o)
	if minor == unknownAge && item.Audience == templates.Workplace {
		minor = adult
	}
	typed := contact.Email
	if minor != adult && (contact.Guardian.Text != "" || !r.AllowDirect) {
		typed, item.Guardian = contact.Guardian, true
	}
	switch {
	case typed.Text != "":
	case item.Guardian && minor == unknownAge:
		return at(o, "the age is not known, and there is no address of a parent or guardian", "add the date of birth, or the address in a column \"Guardian email\"")
	case item.Guardian:
		return at(o, "this person is under 18, and there is no address of a parent or guardian", "add it in a column \"Guardian email\"")
	default:
		return at(o, "there is no e-mail address", "add it in a column \"Email\"")
	}
	if typed.Other != "" {
		return in(typed, "another address of this person is in "+typed.Other, "leave one of them, or skip a column with --column \"HEADER=ignore\"")
	}
	address, doubt := ParseAddress(typed.Text)
	if doubt != nil {
		return doubted(typed, doubt)
	}
	if doubt := CheckName(o.Row.Person.Name); doubt != nil {
		return at(o, doubt.What.String(), doubt.Fix.String())
	}
	if utf8.RuneCountInString(item.Name) > maxName {
		return at(o, fmt.Sprintf("the name or ID is longer than %d characters", maxName), "type it alone, without other text")
	}
	item.To = address
	return nil
}

// password sets the password that the roster gives.
func (r *Rules) password(item *Item) *workbook.Problem {
	typed := item.Outcome.Row.Person.Reached().Password
	switch {
	case !r.Lock || typed.Text == "":
		return nil
	case typed.Other != "":
		return in(workbook.Typed{Cell: typed.Cell}, "another password of this person is in "+typed.Other, "leave one of them")
	case typed.IsDate:
		return in(workbook.Typed{Cell: typed.Cell}, "the spreadsheet converted the password to a date", "give the cell the number format Text and type the password again, or empty it to have one generated")
	}
	if doubt := CheckPassword(typed.Text); doubt != nil {
		return in(workbook.Typed{Cell: typed.Cell}, doubt.What.String(), doubt.Fix.String()) // does not show the password
	}
	item.Password = typed.Text
	return nil
}

// page checks the page file.
func (r *Rules) page(item *Item) *workbook.Problem {
	data, err := item.read(r.Folder)
	if err != nil {
		return at(item.Outcome, err.Error(), "score the roster again with tenback run")
	}
	item.SHA256 = sumOf(data)
	return nil
}

// Errors of a page that must not be sent.
var (
	errGone    = errors.New("the page is no longer in the folder")
	errForeign = errors.New("the page was made for somebody else, or before the name, ID or date of birth changed")
	errChanged = errors.New("the page was changed meanwhile")
)

// Read reads the page. It checks again that the page is this person's and has not
// changed since the item was chosen.
func (item *Item) Read(folder string) ([]byte, error) {
	data, err := item.read(folder)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", item.Page, err)
	}
	if sumOf(data) != item.SHA256 {
		return nil, fmt.Errorf("%s: %w", item.Page, errChanged)
	}
	return data, nil
}

func (item *Item) read(folder string) ([]byte, error) {
	path := filepath.Join(folder, item.Page)
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errGone
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular(): // links are not followed
		return nil, errForeign
	}
	data, err := safefile.ReadPlain(path, batch.MaxPage)
	switch {
	case errors.Is(err, safefile.ErrTooLarge):
		return nil, errForeign
	case err != nil:
		return nil, err
	}
	if key, err := kit.ReadKey(data); err != nil || personkey.Key(key) != item.Key {
		return nil, errForeign
	}
	return data, nil
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
