package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	netmail "net/mail"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/personkey"
	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/safefile"
)

func deliverCommand() *cli.Command {
	return &cli.Command{
		Name:      "deliver",
		Usage:     "bring each page to its person: a message a person, to send yourself or through a mail server",
		ArgsUsage: "ROSTER-scored.xlsx",
		Description: `Takes the scored workbook and the pages beside it, and writes one message a
person into the folder ROSTER-outbox: a draft that a mail program opens, with
the page attached. Nothing is sent. Addresses stand in a column such as Email;
people under 18 get theirs through a column such as "Guardian email".

With --smtp the messages are sent, after showing who gets what and asking. The
server must encrypt. What was sent stands in the file ROSTER-ledger.jsonl, so
that a run that was stopped goes on where it was and sends nothing twice.

A page goes only to an address in its person's own rows, and only if the key
written into the page is that person's. Who gets nothing is listed with the
reason, on the screen and in ROSTER-outbox/not-delivered.txt.

Example:  tenback deliver fitness-week-scored.xlsx --lock

EXIT STATUS:
   0    everybody has a message
   1    failed: no pages, a server that cannot be reached
   2    wrong usage
   3    done, but some people have none
   130  stopped by Ctrl-C`,
		Flags: append(rosterFlags(),
			&cli.StringFlag{Name: "audience", Usage: "who reads the messages: `WHO` is school, workplace or squad, as for the pages"},
			langFlag("the messages"),
			wordsFlag(),
			&cli.StringFlag{Name: "org", Usage: "`NAME` of your organisation"},
			&cli.StringFlag{Name: "contact", Usage: "`LINE` that says whom to ask"},
			&cli.StringFlag{Name: "from", Usage: "`ADDRESS` that the messages come from, such as \"PE office <pe@school.example>\""},
			&cli.BoolFlag{Name: "lock", Usage: "put a password on each page (AES-256): that of a column Password, or one that is made and listed in ROSTER-passwords.txt"},
			&cli.BoolFlag{Name: "allow-direct", Usage: "send people under 18 their page themselves where no address of a parent or guardian is given"},
			&cli.StringFlag{Name: "smtp", Usage: "send through the mail server `HOST:PORT` (port 465: TLS from the start, others: STARTTLS)"},
			&cli.StringFlag{Name: "user", Usage: "`NAME` to sign in with; the password is asked for, or taken from " + smtpPasswordVariable},
			&cli.IntFlag{Name: "pace", Usage: "send at most `N` messages a minute", Value: 30},
			&cli.BoolFlag{Name: "again", Usage: "send also to people whose page or address has changed since they were sent one, and to those whom the server refused"},
			&cli.StringFlag{Name: "in-doubt", Usage: "what to take messages for of which nobody knows whether they were sent: `WHAT` is sent, unsent or leave (default: ask)"},
			&cli.BoolFlag{Name: "yes", Usage: "do not ask before sending"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a scored workbook")
			if err != nil {
				return err
			}
			d, err := deliveryFromFlags(c, path)
			if err != nil {
				return err
			}
			return d.run(c.Context, c.App.Writer)
		},
	}
}

// delivery is one run of the deliver command.
type delivery struct {
	bundle
	roster      string
	read        workbook.ReadOptions
	pageWishes  pageWishes
	from        *netmail.Address // nil if not given
	lock        bool
	allowDirect bool
	sending     *sending // nil to write drafts
	asker       *terminal.Asker
	now         time.Time

	maker     *pageMaker
	secret    personkey.Secret
	passwords *mail.Passwords // nil without lock
}

func deliveryFromFlags(c *cli.Context, path string) (*delivery, error) {
	d := &delivery{bundle: bundleOf(path), roster: path, lock: c.Bool("lock"), allowDirect: c.Bool("allow-direct"), asker: terminal.NewAsker(c.App.Reader, c.App.Writer), now: time.Now()}
	var err error
	if d.read, err = readOptions(c); err != nil {
		return nil, err
	}
	if d.pageWishes, err = pageWishesFromFlags(c); err != nil {
		return nil, err
	}
	if text := c.String("from"); text != "" {
		if d.from, err = parseSender(text); err != nil {
			return nil, err
		}
	}
	d.sending, err = sendingFromFlags(c, d.from)
	return d, err
}

func (d *delivery) run(ctx context.Context, out io.Writer) error {
	roster, err := openRoster(d.roster, d.read)
	if err != nil {
		return err
	}
	release, err := reserve(d.dir, d.base, d.roster)
	if err != nil {
		return err
	}
	defer release()
	if d.pageWishes.lang == "" && roster.Pages.Language.Value == "" {
		d.pageWishes.lang = workbook.ResultLanguage(roster) // that of the run which made the pages
	}
	if d.maker, err = d.pageWishes.maker(roster, localePaper(os.Getenv)); err != nil {
		return err
	}
	if err := d.checkClock(roster); err != nil {
		return err
	}
	items, left, err := d.choose(roster)
	if err != nil {
		return err
	}
	if d.lock {
		if d.passwords, err = mail.OpenPasswords(d.passwordsFile()); err != nil {
			return err
		}
		if err := d.givePasswords(items); err != nil {
			return err
		}
	}
	folder, err := mail.OpenDrafts(d.outboxFolder())
	if err != nil {
		return err
	}
	if err := d.listLeft(left); err != nil {
		return err
	}
	complete := true
	if d.sending == nil {
		err = d.drafts(ctx, out, folder, items)
	} else {
		complete, err = d.send(ctx, out, items)
	}
	d.tellLeft(out, left)
	if err == nil && (len(left) > 0 || !complete) {
		return errLeftOut
	}
	return err
}

// yearsToDeliver is for how many years after the last round of testing its
// pages are given out: an assumption.
const yearsToDeliver = 5

// checkClock refuses to go by a clock that is far off: one that is ahead makes
// grown-ups of children, and their pages would not go to their parents; one that
// was set back makes children of grown-ups. Where no day of a test is known, the
// program's own stands in its place.
func (d *delivery) checkClock(roster *workbook.Roster) error {
	if text := batch.ClockText(roster); text != "" {
		return hinted{fmt.Errorf("%s: nobody's pages are delivered, for %s", d.roster, text), "set it right: it tells who is under 18"}
	}
	const hint = "if that date is wrong, set it right: it tells who is under 18"
	// A few such dates are mistakes of the sheet, and only their people get nothing.
	visits, ahead := workbook.Visits(roster), 0
	for i := range visits {
		if mail.SaysFuture(roster, visits[i].Row) {
			ahead++
		}
	}
	if 2*ahead > len(visits) {
		return hinted{fmt.Errorf("%s: this computer's date is %s, and by it dates of most people in the sheet are in the future; so nobody's pages are delivered", d.roster, d.now.Format(terminal.DayForm)), hint}
	}
	last := lastRound(roster)
	if d.now.Before(cmp.Or(last, version.Made).AddDate(yearsToDeliver, 0, 0)) {
		return nil
	}
	if last.IsZero() {
		return hinted{fmt.Errorf("%s: this computer's date is %s, more than %d years after tenback %s was made, and no day of a test is known to hold it against", d.roster, d.now.Format(terminal.DayForm), yearsToDeliver, version.Number),
			hint + "; if it is right, say when the tests were: --test-date"}
	}
	return hinted{fmt.Errorf("%s: this computer's date is %s, and the last round of tests began on %s; after more than %d years nobody's pages are delivered", d.roster, d.now.Format(terminal.DayForm), last.Format(terminal.DayForm), yearsToDeliver), hint}
}

// choose settles who gets what. People who were forgotten get nothing.
func (d *delivery) choose(roster *workbook.Roster) ([]mail.Item, []mail.Left, error) {
	var err error
	hint := "make them with tenback run; then give this command the scored copy, " + filepath.Base(d.file(scoredEnding+".xlsx"))
	if d.secret, err = personkey.Load(d.pageFolder()); errors.Is(err, fs.ErrNotExist) {
		return nil, nil, hinted{fmt.Errorf("there are no pages in %s", d.pageFolder()), hint}
	} else if err != nil {
		return nil, nil, err
	}
	rules := mail.Rules{Secret: d.secret, Folder: d.pageFolder(), Today: d.now, AllowDirect: d.allowDirect, Lock: d.lock, Audience: d.maker.audienceOf}
	items, left, err := rules.Choose(roster)
	if errors.Is(err, mail.ErrNoPages) {
		if workbook.ResultLanguage(roster) != "" { // it is a scored copy
			return nil, nil, hinted{fmt.Errorf("%s: nobody has a page, for nobody in this workbook was scored", d.roster), "tenback check tells what to mend in the rows; then run again"}
		}
		return nil, nil, hinted{fmt.Errorf("%s: %w", d.roster, err), hint}
	}
	return items, left, err
}

// givePasswords settles the password of each page, and makes the slips for
// those that were made here.
func (d *delivery) givePasswords(items []mail.Item) error {
	for i := range items {
		item := &items[i]
		if item.Password != "" {
			continue
		}
		var err error
		if item.Password, err = d.passwords.Of(item.Key, item.Name, item.Page); err != nil {
			return err
		}
	}
	return d.savePasswords(d.passwords, d.maker.words[d.maker.lang], d.maker.paper)
}

// letter makes the message with an item's page. It checks just before whose the
// page is.
func (d *delivery) letter(item *mail.Item) (*mail.Letter, error) {
	page, err := item.Read(d.pageFolder())
	if err != nil {
		return nil, err
	}
	if d.lock {
		if page, err = mail.LockPage(page, item.Password); err != nil {
			return nil, err
		}
	}
	audience := item.Audience
	if item.Guardian {
		audience = templates.School // whose words are for families
	}
	words := d.maker.words[cmp.Or(item.Outcome.Row.Person.Language, d.maker.lang)].For(audience)
	slots := map[string]any{"Name": item.Name, "Organisation": d.maker.brand.Organisation, "Contact": d.maker.brand.Contact,
		"Guardian": item.Guardian, "Locked": d.lock}
	subject, err := words.Say("mail.subject", slots)
	if err != nil {
		return nil, err
	}
	text, err := words.Say("mail.text", slots)
	if err != nil {
		return nil, err
	}
	l := &mail.Letter{From: d.from, To: netmail.Address{Address: item.To}, Subject: strings.ReplaceAll(subject, "\n", " "),
		Text: strings.ReplaceAll(text, "\n", "\n\n") + "\n", Lang: words.Lang(), Page: page, File: item.Page, ID: d.entry(item).ID(), Date: time.Now()}
	if !item.Guardian {
		l.To.Name = item.Outcome.Row.Person.Name
	}
	return l, nil
}

// entry is an item as the ledger knows it.
func (d *delivery) entry(item *mail.Item) *mail.Entry {
	return &mail.Entry{Person: item.Key, Name: item.Name, Page: item.Page, SHA256: item.SHA256, To: item.To}
}

// drafts writes the messages as files.
func (d *delivery) drafts(ctx context.Context, out io.Writer, folder *mail.Drafts, items []mail.Item) error {
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
		if err := folder.Add(item.Page, item.Key, raw); err != nil {
			return err
		}
	}
	removed, err := folder.Keep(pages)
	if err != nil {
		return err
	}
	d.tellShared(out, items)
	fmt.Fprintf(out, "Outbox    %s (%s; nothing was sent)\n", d.outboxFolder(), terminal.Count(len(items), "message", "messages"))
	if len(removed) > 0 {
		fmt.Fprintf(out, "Note      %s of an earlier run removed, of people who get none now\n", terminal.Count(len(removed), "message", "messages"))
	}
	d.tellPasswords(out)
	return nil
}

// tellPasswords says where the passwords are.
func (d *delivery) tellPasswords(out io.Writer) {
	if d.passwords != nil && len(d.passwords.Lines()) > 0 {
		fmt.Fprintf(out, "Passwords %s; to hand out on paper: %s\n", d.passwordsFile(), d.slipsFile())
	}
}

// tellShared names the addresses that several people share.
func (d *delivery) tellShared(out io.Writer, items []mail.Item) {
	shared := mail.Shared(items)
	told := map[string]bool{}
	for i := range items {
		to := strings.ToLower(items[i].To)
		if shared[to] > 0 && !told[to] {
			told[to] = true
			fmt.Fprintf(out, "Note      %s gets the pages of %d people, in a message each\n", items[i].To, shared[to])
		}
	}
}

// listLeft writes the list of those who get nothing, or removes it.
func (d *delivery) listLeft(left []mail.Left) error {
	path := d.notDeliveredFile()
	if len(left) == 0 {
		return removeIfThere(path)
	}
	var text bytes.Buffer
	for _, l := range left {
		p := l.Problem
		p.Read = ""
		fmt.Fprintf(&text, "%s\t%s\t%s\n", oneLine(l.Outcome.Row.Person.Label()), oneLine(l.Outcome.Row.Person.Group), p.String())
	}
	return safefile.WriteBytes(path, text.Bytes())
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// tellLeft prints who gets nothing.
func (d *delivery) tellLeft(out io.Writer, left []mail.Left) {
	if len(left) == 0 {
		return
	}
	fmt.Fprintf(out, "\nNo message for %s; all of them in %s\n", terminal.Count(len(left), "person", "people"), d.notDeliveredFile())
	roster := &workbook.Roster{}
	var problems []workbook.Problem
	for _, l := range left {
		problems = append(problems, l.Problem)
	}
	printFindings(out, workbook.Findings(roster, problems))
}
