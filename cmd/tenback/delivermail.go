package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	netmail "net/mail"
	"os"
	"slices"
	"strconv"
	"time"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/terminal"
)

// smtpPasswordVariable is the environment variable that may hold the password
// of the mail server.
const smtpPasswordVariable = "TENBACK_SMTP_PASSWORD"

// How long to wait before trying again: to reach the server, and for people
// whom it put off. A server that puts strangers off (greylisting) wants some
// minutes to pass; common practice, no source.
var (
	redial = []time.Duration{2 * time.Second, 10 * time.Second, 30 * time.Second}
	putOff = []time.Duration{time.Minute, 5 * time.Minute, 15 * time.Minute}
)

// inDoubts are the answers to what became of a message in doubt.
var inDoubts = []string{"sent", "unsent", "leave"}

// sending is how messages are sent.
type sending struct {
	server  mail.Server
	from    string
	pace    time.Duration
	again   bool
	inDoubt string // one of inDoubts, or empty to ask
	yes     bool
	// password asks for that of the server; nil if none is needed.
	password func(context.Context) (string, error)
}

// parseSender reads who the messages are from, and holds the sender to what is
// asked of recipients.
func parseSender(text string) (*netmail.Address, error) {
	from, err := netmail.ParseAddress(text)
	if err != nil {
		return nil, usageError(fmt.Sprintf("--from: %q should be such as pe@school.example or \"PE office <pe@school.example>\"", text))
	}
	address, doubt := mail.ParseAddress(from.Address)
	if doubt == nil {
		doubt = mail.CheckName(from.Name)
	}
	if doubt != nil {
		return nil, usageError(fmt.Sprintf("--from: %v", doubt))
	}
	from.Address = address
	return from, nil
}

// sendingFromFlags gives nil where nothing is to be sent.
func sendingFromFlags(c *cli.Context, from *netmail.Address) (*sending, error) {
	if c.String("smtp") == "" {
		for _, name := range []string{"user", "pace", "again", "in-doubt", "yes"} {
			if c.IsSet(name) {
				return nil, usageError(fmt.Sprintf("--%s is for sending; name the mail server with --smtp, or leave it out", name))
			}
		}
		return nil, nil
	}
	host, port, err := net.SplitHostPort(c.String("smtp"))
	number, wrong := strconv.Atoi(port)
	if err != nil || wrong != nil || host == "" || number < 1 || number > 65535 {
		return nil, usageError(fmt.Sprintf("--smtp: %q should be HOST:PORT, such as mail.school.example:587", c.String("smtp")))
	}
	if from == nil {
		return nil, usageError("--smtp needs --from, the address that the messages come from")
	}
	s := &sending{server: mail.Server{Host: host, Port: number, User: c.String("user")}, from: from.Address,
		again: c.Bool("again"), inDoubt: c.String("in-doubt"), yes: c.Bool("yes")}
	if c.Int("pace") < 1 {
		return nil, usageError("--pace takes a whole number from 1")
	}
	s.pace = time.Minute / time.Duration(c.Int("pace"))
	if s.inDoubt != "" && !slices.Contains(inDoubts, s.inDoubt) {
		return nil, usageError(fmt.Sprintf("--in-doubt is sent, unsent or leave, not %q", s.inDoubt))
	}
	if s.server.User != "" {
		s.password = func(ctx context.Context) (string, error) {
			if p := os.Getenv(smtpPasswordVariable); p != "" {
				return p, nil
			}
			return askPassword(ctx, c.App.Reader, c.App.ErrWriter, s.server.User+" at "+host, smtpPasswordVariable)
		}
	}
	return s, nil
}

// send sends the messages; complete means that everybody of the items has got
// theirs, now or before.
func (d *delivery) send(ctx context.Context, out io.Writer, items []mail.Item) (complete bool, err error) {
	book, err := mail.OpenLedger(d.ledgerFile())
	if err != nil {
		return false, err
	}
	defer book.Close()
	if err := d.settleDoubts(ctx, out, book); err != nil {
		return false, err
	}
	due, before := d.due(book, items)
	d.preview(out, due, before)
	if len(due) == 0 {
		fmt.Fprintln(out, "Nothing is to be sent.")
		return before.complete(), nil
	}
	if !d.sending.yes {
		answer, err := d.asker.Ask(ctx, fmt.Sprintf("Send %s through %s?", terminal.Count(len(due), "message", "messages"), d.sending.server.Host), "yes", "no")
		if err != nil && !errors.Is(err, terminal.ErrNoAnswer) {
			return false, err
		}
		if answer != "yes" {
			fmt.Fprintln(out, "Nothing was sent; --yes sends without asking.")
			return false, nil
		}
	}
	if d.sending.password != nil {
		if d.sending.server.Password, err = d.sending.password(ctx); err != nil {
			return false, err
		}
	}
	return d.sendDue(ctx, out, book, due, before)
}

// settleDoubts asks about each message of which nobody knows whether it
// arrived.
func (d *delivery) settleDoubts(ctx context.Context, out io.Writer, book *mail.Ledger) error {
	doubts := book.InDoubt()
	if len(doubts) == 0 {
		return nil
	}
	fmt.Fprintf(out, "In doubt: %s handed to the server when the program or the connection stopped. Look into the mailbox of the sender, or ask the people.\n", terminal.Count(len(doubts), "message was", "messages were"))
	for _, e := range doubts {
		answer := d.sending.inDoubt
		what := fmt.Sprintf("  %s: %s to %s, begun %s", e.Name, e.Page, e.To, e.Time.Local().Format(terminal.DayForm+" "+terminal.ClockForm))
		if answer != "" {
			fmt.Fprintf(out, "%s: %s\n", what, answer)
		} else {
			var err error
			if answer, err = d.asker.Ask(ctx, what+". What became of it?", inDoubts...); errors.Is(err, terminal.ErrNoAnswer) {
				fmt.Fprintln(out, "Left as they are; --in-doubt says what to take them for.")
				return nil
			} else if err != nil {
				return err
			}
		}
		switch answer {
		case "sent":
			e.State, e.Answer = mail.Sent, "someone said that it was sent"
		case "unsent":
			e.State, e.Answer = mail.Unsent, "someone said that it was not sent"
		default:
			continue
		}
		e.Time = d.now.UTC().Truncate(time.Second)
		if err := book.Write(e); err != nil {
			return err
		}
	}
	return nil
}

// dealt are the people who get no message now, for what the ledger says.
type dealt struct {
	sent, changed, refused, doubt, forgotten []*mail.Item
}

// complete tells whether all of them have the page that is there now.
func (b *dealt) complete() bool {
	return len(b.changed)+len(b.refused)+len(b.doubt)+len(b.forgotten) == 0
}

// due parts the items by what the ledger says: those to whom a message goes,
// and the others.
func (d *delivery) due(book *mail.Ledger, items []mail.Item) (due []*mail.Item, before dealt) {
	for i := range items {
		item := &items[i]
		var here, other, refused, doubt bool
		for _, e := range book.Of(item.Key) {
			same := e.ID() == d.entry(item).ID()
			switch about := same || e.Page == item.Page || e.SHA256 == item.SHA256; {
			case !about:
			case e.State == mail.Begun:
				doubt = true
			case e.State == mail.Sent && same:
				here = true
			case e.State == mail.Sent:
				other = true
			case e.State == mail.Refused && same:
				refused = true
			}
		}
		switch {
		case doubt:
			before.doubt = append(before.doubt, item)
		case here:
			before.sent = append(before.sent, item)
		case d.sending.again:
			due = append(due, item)
		case book.IsForgotten(item.Key):
			before.forgotten = append(before.forgotten, item)
		case refused:
			before.refused = append(before.refused, item)
		case other:
			before.changed = append(before.changed, item)
		default:
			due = append(due, item)
		}
	}
	return due, before
}

// preview prints who gets what, and who does not, before anything is sent.
func (d *delivery) preview(out io.Writer, due []*mail.Item, before dealt) {
	t := terminal.Table(out)
	for _, item := range due {
		to := item.To
		if item.Guardian {
			to += " (parent or guardian)"
		}
		t.AppendRow(table.Row{"", item.Name, to, item.Page})
	}
	if len(due) > 0 {
		fmt.Fprintf(out, "To send: %s from %s\n", terminal.Count(len(due), "message", "messages"), d.from)
		t.Render()
	}
	shared := make([]mail.Item, 0, len(due))
	for _, item := range due {
		shared = append(shared, *item)
	}
	d.tellShared(out, shared)
	if d.lock {
		fmt.Fprintln(out, "Note      each page opens only with its password")
	}
	for _, group := range []struct {
		items []*mail.Item
		text  string
		named bool
	}{
		{before.sent, "already sent", false},
		{before.changed, "sent before, and the page or the address has changed since; --again sends it", true},
		{before.refused, "refused by the server before; correct the address, or --again tries it", true},
		{before.doubt, "in doubt, so not sent", true},
		{before.forgotten, "forgotten since a message was sent; delete the row, or --again sends it", true},
	} {
		if len(group.items) == 0 {
			continue
		}
		fmt.Fprintf(out, "%s %s\n", terminal.Count(len(group.items), "message", "messages"), group.text)
		for _, item := range group.items {
			if group.named {
				fmt.Fprintf(out, "  %s: %s\n", item.Name, item.To)
			}
		}
	}
}

// sendDue sends, and tells what became of it.
func (d *delivery) sendDue(ctx context.Context, out io.Writer, book *mail.Ledger, due []*mail.Item, before dealt) (complete bool, err error) {
	failed := 0
	run := mail.Run{Server: d.sending.server, From: d.sending.from, Ledger: book, Pace: d.sending.pace, Redial: redial, Again: putOff,
		Told: func(e mail.Entry) {
			if e.State != mail.Begun {
				fmt.Fprintf(out, "  %s  %s  %s  %s\n", e.State, e.Name, e.To, e.Answer)
			}
		},
		Failed: func(p mail.Parcel, err error) {
			failed++
			fmt.Fprintf(out, "  not sent  %s: %v\n", p.Entry.Name, err)
		},
		Waiting: func(people int, wait time.Duration) {
			fmt.Fprintf(out, "%s put off by the server; trying again in %v. Ctrl-C stops; the next run goes on from here.\n", terminal.Count(people, "message was", "messages were"), wait)
		}}
	parcels := make([]mail.Parcel, len(due))
	for i, item := range due {
		parcels[i] = mail.Parcel{Entry: *d.entry(item), Make: func() ([]byte, error) {
			l, err := d.letter(item)
			if err != nil {
				return nil, err
			}
			return l.Bytes()
		}}
	}
	err = run.Send(ctx, parcels)
	states := map[mail.State]int{}
	for i := range parcels {
		for _, e := range book.Of(parcels[i].Entry.Person) {
			if e.ID() == parcels[i].Entry.ID() {
				states[e.State]++
			}
		}
	}
	sent := states[mail.Sent]
	fmt.Fprintf(out, "Sent      %d of %s\n", sent, terminal.Count(len(due), "message", "messages"))
	for _, s := range []struct {
		state mail.State
		text  string
	}{
		{mail.Refused, "refused by the server"},
		{mail.Later, "put off by the server; the next run tries again"},
		{mail.Unsent, "not handed over; the next run tries again"},
		{mail.Begun, "in doubt; the next run asks about them"},
	} {
		if n := states[s.state]; n > 0 {
			fmt.Fprintf(out, "          %d %s\n", n, s.text)
		}
	}
	fmt.Fprintf(out, "Ledger    %s\n", d.ledgerFile())
	d.tellPasswords(out)
	if err != nil && !errors.Is(err, context.Canceled) {
		err = hinted{err, "run the same command again when that is settled: it goes on with those who have not got theirs"}
	}
	return sent == len(due) && before.complete(), err
}
