package mail

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/mail"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/pdfreport/kit"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/people"
	"tenback/workbook/result"
	"tenback/workbook/safefile"
)

// Delivery brings the pages of a roster to its people.
type Delivery struct {
	Files       batch.Files
	Roster      string        // path of the scored workbook
	From        *mail.Address // nil if not given
	Lock        bool          // puts a password on each page
	AllowDirect bool          // see [Rules]
	AllowShared bool          // see [Rules]
	Sending     *Sending      // nil to write drafts
	Asker       *terminal.Asker
	Now         time.Time
	Look        Look

	secret    personkey.Secret
	passwords *Passwords // nil without Lock
}

// Look is what messages and slips are made with.
type Look struct {
	Words    map[string]*templates.Set // by language
	Lang     string                    // unless the row has another
	Brand    *kit.Brand
	Paper    kit.Paper
	Audience func(*workbook.Outcome) templates.Audience
}

// Run writes the drafts, or sends the messages. It returns the people who get
// none; complete reports whether everybody else has the present page.
func (d *Delivery) Run(ctx context.Context, out io.Writer, roster *workbook.Roster) (left []Left, complete bool, err error) {
	if err := d.checkClock(roster); err != nil {
		return nil, false, err
	}
	items, left, err := d.choose(roster)
	if err != nil {
		return nil, false, err
	}
	if d.Lock {
		if d.passwords, err = OpenPasswords(d.Files.Passwords()); err != nil {
			return nil, false, err
		}
		if err := d.givePasswords(items); err != nil {
			return nil, false, err
		}
	}
	folder, err := OpenDrafts(d.Files.Outbox())
	if err != nil {
		return nil, false, err
	}
	if err := d.listLeft(left); err != nil {
		return nil, false, err
	}
	if d.Sending == nil {
		return left, true, d.drafts(ctx, out, folder, items)
	}
	complete, err = d.send(ctx, out, items)
	return left, complete, err
}

// YearsToDeliver is how long after a round of testing its pages are delivered: an
// assumption.
const YearsToDeliver = 5

// checkClock refuses a clock that is far off, because today's date decides who is
// under 18. If no test day is known it compares with the date of the program.
func (d *Delivery) checkClock(roster *workbook.Roster) error {
	if text := batch.ClockText(roster); text != "" {
		return terminal.Hinted(fmt.Errorf("%s: no pages are delivered, because %s", d.Roster, text), "correct it: it decides who is under 18")
	}
	const hint = "if that date is wrong, correct it: it decides who is under 18"
	// A few future dates are mistakes in the sheet; only their people are left out.
	visits, ahead := people.Visits(roster), 0
	for i := range visits {
		if SaysFuture(roster, visits[i].Row) {
			ahead++
		}
	}
	if 2*ahead > len(visits) {
		return terminal.Hinted(fmt.Errorf("%s: this computer's date is %s, and most people in the sheet have later dates; no pages are delivered", d.Roster, d.Now.Format(terminal.DayForm)), hint)
	}
	last := batch.LastRound(roster)
	if d.Now.Before(cmp.Or(last, version.Made).AddDate(YearsToDeliver, 0, 0)) {
		return nil
	}
	if last.IsZero() {
		return terminal.Hinted(fmt.Errorf("%s: this computer's date is %s, more than %d years after tenback %s was made, and the sheet has no test day to compare it with", d.Roster, d.Now.Format(terminal.DayForm), YearsToDeliver, version.Number),
			hint+"; if it is right, give the day of the tests with --test-date")
	}
	return terminal.Hinted(fmt.Errorf("%s: this computer's date is %s, and the last round of tests began on %s; no pages are delivered after more than %d years", d.Roster, d.Now.Format(terminal.DayForm), last.Format(terminal.DayForm), YearsToDeliver), hint)
}

// choose loads the secret and applies the rules.
func (d *Delivery) choose(roster *workbook.Roster) ([]Item, []Left, error) {
	var err error
	hint := "make them with tenback run; then give this command the scored copy, " + filepath.Base(d.Files.File(batch.ScoredEnding+".xlsx"))
	if d.secret, err = personkey.Load(d.Files.Pages()); errors.Is(err, fs.ErrNotExist) {
		return nil, nil, terminal.Hinted(fmt.Errorf("there are no pages in %s", d.Files.Pages()), hint)
	} else if err != nil {
		return nil, nil, err
	}
	rules := Rules{Secret: d.secret, Folder: d.Files.Pages(), Today: d.Now, AllowDirect: d.AllowDirect, AllowShared: d.AllowShared, Lock: d.Lock, Audience: d.Look.Audience}
	items, left, err := rules.Choose(roster)
	if errors.Is(err, ErrNoPages) {
		if result.Language(roster) != "" { // it is a scored copy
			return nil, nil, terminal.Hinted(fmt.Errorf("%s: no page: no row in this workbook has one", d.Roster), "tenback check shows what to mend; then run again")
		}
		return nil, nil, terminal.Hinted(fmt.Errorf("%s: %w", d.Roster, err), hint)
	}
	return items, left, err
}

// givePasswords sets the password of each page, and writes the slips for those
// generated here.
func (d *Delivery) givePasswords(items []Item) error {
	for i := range items {
		item := &items[i]
		if item.Password != "" {
			continue
		}
		var err error
		name := item.Name
		if group := item.Outcome.Row.Person.Group; group != "" {
			name += ", " + group // slips tell people of one name apart
		}
		if item.Password, err = d.passwords.Of(item.Key, name, item.Page); err != nil {
			return err
		}
	}
	return savePasswords(d.Files, d.passwords, d.Look.Words[d.Look.Lang], d.Look.Paper)
}

// letter returns the message with an item's page. It first checks that the page
// is still the item's.
func (d *Delivery) letter(item *Item) (*Letter, error) {
	page, err := item.Read(d.Files.Pages())
	if err != nil {
		return nil, err
	}
	if d.Lock {
		if page, err = LockPage(page, item.Password); err != nil {
			return nil, err
		}
	}
	audience := item.Audience
	if item.Guardian {
		audience = templates.School // whose words are for families
	}
	words := d.Look.Words[cmp.Or(item.Outcome.Row.Person.Language, d.Look.Lang)].For(audience)
	slots := map[string]any{"Name": item.Name, "Organisation": d.Look.Brand.Organisation, "Contact": d.Look.Brand.Contact,
		"Guardian": item.Guardian, "Locked": d.Lock, "Day": ""}
	if day := item.Outcome.Row.Entry.Tested; !day.IsZero() {
		if slots["Day"], err = words.Date(day); err != nil {
			return nil, err
		}
	}
	subject, err := words.Say("mail.subject", slots)
	if err != nil {
		return nil, err
	}
	text, err := words.Say("mail.text", slots)
	if err != nil {
		return nil, err
	}
	l := &Letter{From: d.From, To: mail.Address{Address: item.To}, Subject: strings.ReplaceAll(subject, "\n", " "),
		Text: strings.ReplaceAll(text, "\n", "\n\n") + "\n", Lang: words.Lang(), Page: page, File: item.Page, ID: item.entry().ID(), Date: time.Now()}
	if !item.Guardian {
		l.To.Name = item.Outcome.Row.Person.Name
	}
	return l, nil
}

// entry returns the ledger entry of an item, without its state.
func (item *Item) entry() *Entry {
	return &Entry{Person: item.Key, Name: item.Name, Page: item.Page, SHA256: item.SHA256, To: item.To}
}

// drafts writes the messages as files.
func (d *Delivery) drafts(ctx context.Context, out io.Writer, folder *Drafts, items []Item) error {
	pages := map[string]personkey.Key{}
	for i := range items {
		pages[items[i].Page] = items[i].Key
	}
	if err := folder.Expect(pages); err != nil {
		return err
	}
	for i := range items {
		if err := ctx.Err(); err != nil {
			return err
		}
		item := &items[i]
		l, err := d.letter(item)
		if err != nil {
			return err
		}
		raw, err := l.Draft()
		if err != nil {
			return fmt.Errorf("%s: %w", item.Name, err)
		}
		if err := folder.Add(item.Page, raw); err != nil {
			return err
		}
	}
	removed, err := folder.Keep(pages)
	if err != nil {
		return err
	}
	printShared(out, items)
	fmt.Fprintf(out, "Outbox    %s (%s; nothing was sent)\n", d.Files.Outbox(), terminal.Count(len(items), "message", "messages"))
	if len(removed) > 0 {
		fmt.Fprintf(out, "Note      %s of an earlier run removed, of people who get none now\n", terminal.Count(len(removed), "message", "messages"))
	}
	d.tellPasswords(out)
	return nil
}

// tellPasswords prints where the passwords are.
func (d *Delivery) tellPasswords(out io.Writer) {
	if d.passwords != nil && len(d.passwords.Lines()) > 0 {
		fmt.Fprintf(out, "Passwords %s; to hand out on paper: %s\n", d.Files.Passwords(), d.Files.Slips())
	}
}

// printShared prints the addresses that several people share, as of a parent of
// two, or of a cell filled down by mistake.
func printShared(out io.Writer, items []Item) {
	people := map[string][]personkey.Key{}
	for i := range items {
		to := strings.ToLower(items[i].To)
		if !slices.Contains(people[to], items[i].Key) {
			people[to] = append(people[to], items[i].Key)
		}
	}
	for i := range items {
		to := strings.ToLower(items[i].To)
		if n := len(people[to]); n > 1 {
			fmt.Fprintf(out, "Note      %s gets the pages of %d people, in one message each\n", items[i].To, n)
			people[to] = nil // printed
		}
	}
}

// listLeft writes the list of people without a message, or removes it.
func (d *Delivery) listLeft(left []Left) error {
	path := d.Files.NotDelivered()
	if len(left) == 0 {
		return remove(path)
	}
	var text bytes.Buffer
	for _, l := range left {
		p := l.Problem
		p.Read = ""
		fmt.Fprintf(&text, "%s\t%s\t%s\n", oneLine(l.Outcome.Row.Person.Label()), oneLine(l.Outcome.Row.Person.Group), p.String())
	}
	return safefile.WriteBytes(path, text.Bytes())
}
