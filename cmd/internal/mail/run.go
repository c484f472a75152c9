package mail

import (
	"cmp"
	"context"
	"fmt"
	"time"

	"github.com/wneessen/go-mail/smtp"
)

// Parcel is a message to be sent.
type Parcel struct {
	Entry Entry // the person, the page and the address
	// Make returns the message. It is called just before each try, so that its
	// checks are still true. Its error stops this message only.
	Make func() ([]byte, error)
}

// Run sends a list of messages.
type Run struct {
	Server Server
	From   string // address
	Ledger *Ledger
	Pace   time.Duration // the least time between the starts of two messages
	// Redial are the delays before further attempts to connect.
	Redial []time.Duration
	// Again are the delays before further rounds with messages put off.
	Again []time.Duration

	// Told is called with the outcome of each try; nil in tests.
	Told func(Entry)
	// Failed is called for a message that Make refuses.
	Failed func(Parcel, error)
	// Waiting is called before a round with messages put off.
	Waiting func(people int, wait time.Duration)

	wait     func(context.Context, time.Duration) error // for tests; nil to sleep
	client   *smtp.Client
	lastSent time.Time
	reached  bool // the server was reached
	accepted bool // some message was accepted
	refused  int  // messages refused before any was accepted
}

// firstPatience bounds the attempts to reach a server that was never reached.
const firstPatience = 10 * time.Second

// mostRefused stops the run when the first messages are all refused.
const mostRefused = 5

// Send sends the parcels in their order. It returns an error when no message can
// be sent; the error of the context only between two messages.
func (r *Run) Send(ctx context.Context, parcels []Parcel) error {
	defer r.quit()
	if err := r.try(ctx); err != nil {
		return err
	}
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
		r.quit() // servers limit idle time
		r.Waiting(len(off), r.Again[round])
		if err := r.sleep(ctx, r.Again[round]); err != nil {
			return err
		}
		parcels = off
	}
}

// try signs in and offers the sender, before the first message.
func (r *Run) try(ctx context.Context) error {
	if err := r.connect(ctx); err != nil {
		return err
	}
	o := offer(r.client, r.From)
	if o.broken {
		r.drop() // the first message connects again
	}
	return o.fatal
}

// tries bounds the attempts at a message when the connection breaks before the
// server has all of it.
const tries = 3

// deliver sends one parcel; later reports that the server put it off.
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
		if most := largest(r.client); most > 0 && len(raw) > most {
			r.Failed(p, fmt.Errorf("the message has %d KB, and the mail server takes %d KB", len(raw)>>10, most>>10))
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
		again := o.state == Unsent && try < tries
		stop := r.count(&o)
		if err := r.record(p, o.state, o.answer); err != nil {
			return false, err
		}
		if err := cmp.Or(o.fatal, stop); err != nil {
			return false, err
		}
		if !again {
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
	if r.Told != nil && state != Begun {
		r.Told(e)
	}
	return nil
}

// count keeps a refusal from being recorded while no message was accepted, unless the
// server says that it is about the address. It returns an error when all of the first
// messages are refused.
func (r *Run) count(o *outcome) error {
	switch {
	case o.state == Sent:
		r.accepted = true
	case o.state == Refused && !r.accepted && !o.address:
		o.state = Unsent
		if r.refused++; r.refused == mostRefused {
			return fmt.Errorf("%w: %s", errAllRefused, o.answer)
		}
	}
	return nil
}

// connect connects unless there is a connection.
func (r *Run) connect(ctx context.Context) error {
	if r.client != nil {
		return nil
	}
	begun := time.Now()
	for try := 0; ; try++ {
		client, err := r.Server.connect(ctx)
		switch {
		case err == nil:
			r.client, r.reached = client, true
			return nil
		case ctx.Err() != nil:
			return ctx.Err()
		case isFinal(err):
			return err
		case try == len(r.Redial), !r.reached && time.Since(begun)+r.Redial[try] >= firstPatience:
			return fmt.Errorf("%w: %w", errUnreachable, err)
		}
		if err := r.sleep(ctx, r.Redial[try]); err != nil {
			return err
		}
	}
}

// quit ends the connection with QUIT.
func (r *Run) quit() {
	if r.client != nil && r.client.UpdateDeadline(commandTimeout) == nil {
		_ = r.client.Quit() // all that was sent has been answered
	}
	r.drop()
}

// drop closes the connection without QUIT, which within a message would become a
// part of it.
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
