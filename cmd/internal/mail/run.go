package mail

import (
	"context"
	"fmt"
	"time"

	"github.com/wneessen/go-mail/smtp"
)

// Parcel is one message to be sent.
type Parcel struct {
	Entry Entry // whose it is, which page, and to what address
	// Make writes the message. It is called just before the message is sent and
	// once more for each further try, so that what it checks is true then. Its
	// error keeps this message from being sent, and no other.
	Make func() ([]byte, error)
}

// Run is one run through a list of messages.
type Run struct {
	Server Server
	From   string // address
	Ledger *Ledger
	Pace   time.Duration // the least time between the beginnings of two messages
	// Redial are the times to wait before each further try to reach the server.
	Redial []time.Duration
	// Again are the times to wait before each further round with those whom
	// the server put off.
	Again []time.Duration

	// Told is called with each new state of a message that the ledger has; nil
	// where nobody wants to know.
	Told func(Entry)
	// Failed is called for a message that could not be made.
	Failed func(Parcel, error)
	// Waiting is called before a round with those put off.
	Waiting func(people int, wait time.Duration)

	wait     func(context.Context, time.Duration) error // for tests; nil to wait indeed
	client   *smtp.Client
	lastSent time.Time
	accepted bool // some message was taken
	refused  int  // messages refused one after another
}

// mostRefused is how many of the first messages may be refused one after
// another before the run is stopped.
const mostRefused = 5

// Send sends the parcels in their order. It stops with an error where nothing
// more can be sent; with that of the context between two messages, never within
// one. What was not sent stands in the ledger as it was, or is not there yet.
func (r *Run) Send(ctx context.Context, parcels []Parcel) error {
	defer r.quit()
	for round := 0; ; round++ {
		var off []Parcel
		for _, p := range parcels {
			later, err := r.deliver(ctx, p)
			if err != nil {
				return err
			}
			if later {
				off = append(off, p)
			}
		}
		if len(off) == 0 || round == len(r.Again) {
			return nil
		}
		r.quit() // a server does not like to be kept waiting
		r.Waiting(len(off), r.Again[round])
		if err := r.sleep(ctx, r.Again[round]); err != nil {
			return err
		}
		parcels = off
	}
}

// tries is how often a message is handed over anew when the connection breaks
// before it was wholly given.
const tries = 3

// deliver sends one parcel; later means that the server put it off.
func (r *Run) deliver(ctx context.Context, p Parcel) (later bool, err error) {
	for try := 1; ; try++ {
		if err := r.sleep(ctx, time.Until(r.lastSent.Add(r.Pace))); err != nil {
			return false, err
		}
		if err := r.connect(ctx); err != nil {
			return false, err
		}
		raw, err := p.Make()
		if err != nil {
			r.Failed(p, err)
			return false, nil
		}
		r.lastSent = time.Now()
		if err := r.record(p, Begun, ""); err != nil {
			return false, err
		}
		o := send(r.client, r.From, p.Entry.To, raw)
		if o.broken {
			r.drop()
		}
		if o.state == Begun {
			return false, nil // in doubt, as the ledger already says
		}
		if err := r.record(p, o.state, o.answer); err != nil {
			return false, err
		}
		if o.fatal != nil {
			return false, o.fatal
		}
		if err := r.count(o); err != nil {
			return false, err
		}
		if o.state != Unsent || try == tries {
			return o.state == Later, nil
		}
	}
}

func (r *Run) record(p Parcel, state State, answer string) error {
	e := p.Entry
	e.Time, e.State, e.Answer = time.Now().UTC().Truncate(time.Second), state, answer
	if err := r.Ledger.Write(e); err != nil {
		return err
	}
	if r.Told != nil {
		r.Told(e)
	}
	return nil
}

// count stops a run in which nobody is accepted, before it has marked
// everybody as refused.
func (r *Run) count(o outcome) error {
	switch o.state {
	case Sent:
		r.accepted = true
	case Refused:
		if r.refused++; !r.accepted && r.refused == mostRefused {
			return fmt.Errorf("%w: %s", errAllRefused, o.answer)
		}
	}
	return nil
}

// connect sees to it that there is a connection.
func (r *Run) connect(ctx context.Context) error {
	if r.client != nil {
		return nil
	}
	for try := 0; ; try++ {
		client, err := r.Server.connect(ctx)
		switch {
		case err == nil:
			r.client = client
			return nil
		case ctx.Err() != nil:
			return ctx.Err()
		case isFinal(err):
			return err
		case try == len(r.Redial):
			return fmt.Errorf("%w: %w", errUnreachable, err)
		}
		if err := r.sleep(ctx, r.Redial[try]); err != nil {
			return err
		}
	}
}

// quit ends a connection as is polite.
func (r *Run) quit() {
	if r.client != nil && r.client.UpdateDeadline(commandTimeout) == nil {
		_ = r.client.Quit() // all that was sent has been answered
	}
	r.drop()
}

// drop ends a connection without a further word: within a message such a word
// would be taken for a part of it.
func (r *Run) drop() {
	if r.client != nil {
		_ = r.client.Close()
		r.client = nil
	}
}

func (r *Run) sleep(ctx context.Context, d time.Duration) error {
	if r.wait != nil {
		return r.wait(ctx, d)
	}
	if d <= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return nil
	}
}
