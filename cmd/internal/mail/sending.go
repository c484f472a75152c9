package mail

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/mail"
	"slices"
	"time"

	"github.com/jedib0t/go-pretty/v6/table"

	"tenback/cmd/internal/terminal"
)

// Retry delays for connecting and for messages put off. Greylisting servers put
// strangers off for some minutes; common practice, no source.
var (
	redial = []time.Duration{2 * time.Second, 10 * time.Second, 30 * time.Second}
	putOff = []time.Duration{time.Minute, 5 * time.Minute, 15 * time.Minute}
)

// InDoubts are the answers about a message in doubt.
var InDoubts = []string{"sent", "unsent", "leave"}

// Sending is how messages are sent.
type Sending struct {
	Server  Server
	From    string        // address
	Pace    time.Duration // the least time between two messages
	Again   bool          // also to people who were sent another page, or whom the server refused
	InDoubt string        // one of InDoubts, or empty to ask
	Yes     bool          // does not ask before sending
	// Password asks for that of the server; nil if none is needed.
	Password func(context.Context) (string, error)
}

// ParseSender parses the sender, with the same checks as for recipients.
func ParseSender(text string) (*mail.Address, error) {
	from, err := mail.ParseAddress(text)
	if err != nil {
		return nil, fmt.Errorf("%q should be such as pe@school.example or \"PE office <pe@school.example>\"", text)
	}
	address, doubt := ParseAddress(from.Address)
	if doubt == nil {
		doubt = CheckName(from.Name)
	}
	if doubt != nil {
		return nil, doubt
	}
	from.Address = address
	return from, nil
}

// send sends the messages; complete reports whether all items are sent, now or
// before.
func (d *Delivery) send(ctx context.Context, out io.Writer, items []Item) (complete bool, err error) {
	book, err := OpenLedger(d.Files.Ledger())
	if err != nil {
		return false, err
	}
	defer book.Close()
	if err := d.settleDoubts(ctx, out, book); err != nil {
		return false, err
	}
	by := d.sort(book, items)
	d.preview(out, &by)
	due, complete := by[toSend], len(slices.Concat(by[changedSince:toSend]...)) == 0
	if len(due) == 0 {
		fmt.Fprintln(out, "Nothing to send.")
		return complete, nil
	}
	if !d.Sending.Yes {
		answer, err := d.Asker.Ask(ctx, fmt.Sprintf("Send %s through %s?", terminal.Count(len(due), "message", "messages"), d.Sending.Server.Host), "yes", "no")
		if err != nil && !errors.Is(err, terminal.ErrNoAnswer) {
			return false, err
		}
		if answer != "yes" {
			fmt.Fprintln(out, "Nothing was sent; --yes sends without asking.")
			return false, nil
		}
	}
	if d.Sending.Password != nil {
		if d.Sending.Server.Password, err = d.Sending.Password(ctx); err != nil {
			return false, err
		}
	}
	all, err := d.sendDue(ctx, out, book, due)
	return all && complete, err
}

// settleDoubts asks about each message in doubt.
func (d *Delivery) settleDoubts(ctx context.Context, out io.Writer, book *Ledger) error {
	doubts := book.InDoubt()
	if len(doubts) == 0 {
		return nil
	}
	fmt.Fprintf(out, "In doubt: %s handed to the server when the program or the connection stopped. Look into the mailbox of the sender, or ask the people.\n", terminal.Count(len(doubts), "message was", "messages were"))
	for _, e := range doubts {
		answer := d.Sending.InDoubt
		what := fmt.Sprintf("  %s: %s to %s, begun %s", e.Name, e.Page, e.To, e.Time.Local().Format(terminal.DayForm+" "+terminal.ClockForm))
		if answer != "" {
			fmt.Fprintf(out, "%s: %s\n", what, answer)
		} else {
			var err error
			if answer, err = d.Asker.Ask(ctx, what+". What became of it?", InDoubts...); errors.Is(err, terminal.ErrNoAnswer) {
				fmt.Fprintln(out, "Left as they are; --in-doubt says what to take them for.")
				return nil
			} else if err != nil {
				return err
			}
		}
		switch answer {
		case "sent":
			e.State, e.Answer = Sent, "reported as sent"
		case "unsent":
			e.State, e.Answer = Unsent, "reported as not sent"
		default:
			continue
		}
		e.Time = d.Now.UTC().Truncate(time.Second)
		if err := book.Write(e); err != nil {
			return err
		}
	}
	return nil
}

// The reasons why the ledger keeps an item from being sent; the last is none.
const (
	alreadySent = iota
	changedSince
	refusedBefore
	stillInDoubt
	forgottenSince
	toSend
)

var reasons = [toSend]string{"already sent", "sent before, and the page or the address has changed since; --again sends it",
	"refused by the server before; correct the address, or --again tries it", "in doubt, so not sent",
	"forgotten since a message was sent; delete the row, or --again sends it"}

// sorted are items by reason.
type sorted [toSend + 1][]Item

// sort sorts the items by what the ledger has of them.
func (d *Delivery) sort(book *Ledger, items []Item) (by sorted) {
	for _, item := range items {
		var here, other, refused, doubt bool
		for _, e := range book.Of(item.Key) {
			same := e.ID() == item.entry().ID()
			switch about := same || e.Page == item.Page || e.SHA256 == item.SHA256; {
			case !about:
			case e.State == Begun:
				doubt = true
			case e.State == Sent && same:
				here = true
			case e.State == Sent:
				other = true
			case e.State == Refused && same:
				refused = true
			}
		}
		reason := toSend
		switch {
		case doubt:
			reason = stillInDoubt
		case here:
			reason = alreadySent
		case d.Sending.Again:
		case book.IsForgotten(item.Key):
			reason = forgottenSince
		case refused:
			reason = refusedBefore
		case other:
			reason = changedSince
		}
		by[reason] = append(by[reason], item)
	}
	return by
}

// preview prints what will be sent and what will not.
func (d *Delivery) preview(out io.Writer, by *sorted) {
	due := by[toSend]
	t := terminal.Table(out)
	for _, item := range due {
		to := item.To
		if item.Guardian {
			to += " (parent or guardian)"
		}
		t.AppendRow(table.Row{"", item.Name, to, item.Page})
	}
	if len(due) > 0 {
		fmt.Fprintf(out, "To send: %s from %s\n", terminal.Count(len(due), "message", "messages"), d.From)
		t.Render()
	}
	printShared(out, due)
	if d.Lock {
		fmt.Fprintln(out, "Note      each page opens only with its password")
	}
	for reason, text := range reasons {
		if len(by[reason]) == 0 {
			continue
		}
		fmt.Fprintf(out, "%s %s\n", terminal.Count(len(by[reason]), "message", "messages"), text)
		for _, item := range by[reason] {
			if reason != alreadySent {
				fmt.Fprintf(out, "  %s: %s\n", item.Name, item.To)
			}
		}
	}
}

// sendDue sends the items and prints the outcome.
func (d *Delivery) sendDue(ctx context.Context, out io.Writer, book *Ledger, due []Item) (all bool, err error) {
	run := Run{Server: d.Sending.Server, From: d.Sending.From, Ledger: book, Pace: d.Sending.Pace, Redial: redial, Again: putOff,
		Told: func(e Entry) { fmt.Fprintf(out, "  %s  %s  %s  %s\n", e.State, e.Name, e.To, e.Answer) },
		Failed: func(p Parcel, err error) {
			fmt.Fprintf(out, "  not sent  %s: %v\n", p.Entry.Name, err)
		},
		Waiting: func(people int, wait time.Duration) {
			fmt.Fprintf(out, "%s put off by the server; trying again in %v. Ctrl-C stops; the next run continues from here.\n", terminal.Count(people, "message was", "messages were"), wait)
		}}
	parcels := make([]Parcel, len(due))
	for i, item := range due {
		parcels[i] = Parcel{Entry: *item.entry(), Make: func() ([]byte, error) {
			l, err := d.letter(&item)
			if err != nil {
				return nil, err
			}
			return l.Bytes()
		}}
	}
	err = run.Send(ctx, parcels)
	states := map[State]int{}
	for i := range parcels {
		for _, e := range book.Of(parcels[i].Entry.Person) {
			if e.ID() == parcels[i].Entry.ID() {
				states[e.State]++
			}
		}
	}
	sent := states[Sent]
	fmt.Fprintf(out, "Sent      %d of %s\n", sent, terminal.Count(len(due), "message", "messages"))
	for _, s := range []struct {
		state State
		text  string
	}{
		{Refused, "refused by the server"},
		{Later, "put off by the server; the next run tries again"},
		{Unsent, "not handed over; the next run tries again"},
		{Begun, "in doubt; the next run asks about them"},
	} {
		if n := states[s.state]; n > 0 {
			fmt.Fprintf(out, "          %d %s\n", n, s.text)
		}
	}
	fmt.Fprintf(out, "Ledger    %s\n", d.Files.Ledger())
	d.tellPasswords(out)
	if err != nil && !errors.Is(err, context.Canceled) {
		err = terminal.Hinted(err, "then run the same command again; it continues with the messages that are not sent")
	}
	return sent == len(due), err
}
