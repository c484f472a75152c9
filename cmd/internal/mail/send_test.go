package mail

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"tenback/cmd/internal/mail/mailtest"
	"tenback/cmd/internal/personkey"
)

// round is a run against a server, with its ledger.
type round struct {
	server *mailtest.Server
	path   string
	run    Run
	failed []error
	waited []int
}

func start(t *testing.T, secrecy mailtest.Secrecy) *round {
	t.Helper()
	r := &round{server: mailtest.Start(t, secrecy), path: filepath.Join(t.TempDir(), "ledger")}
	r.open(t)
	r.run.Server = Server{Host: r.server.Host, Port: r.server.Port, Roots: r.server.Roots, tlsFirst: secrecy == mailtest.FromTheStart}
	r.run.From = "pe@quillhaven.example"
	r.run.Redial = []time.Duration{time.Millisecond, time.Millisecond}
	r.run.Again = []time.Duration{time.Millisecond, time.Millisecond}
	r.run.Failed = func(_ Parcel, err error) { r.failed = append(r.failed, err) }
	r.run.Waiting = func(people int, _ time.Duration) { r.waited = append(r.waited, people) }
	return r
}

func (r *round) open(t *testing.T) {
	t.Helper()
	l, err := OpenLedger(r.path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	r.run.Ledger = l
}

// parcels returns n messages with lines that begin with a dot.
func parcels(n int) []Parcel {
	var all []Parcel
	for i := range n {
		to := fmt.Sprintf("p%d@river.example", i)
		body := fmt.Sprintf("To: <%s>\r\nSubject: page %d\r\n\r\n.a line with a dot\r\n.\r\nend of %d\r\n", to, i, i) + strings.Repeat("filling\r\n", 300)
		all = append(all, Parcel{
			Entry: Entry{Person: personkey.Key(fmt.Sprint("key", i)), Page: fmt.Sprint(i, ".pdf"), SHA256: fmt.Sprint("sum", i), To: to},
			Make:  func() ([]byte, error) { return []byte(body), nil }})
	}
	return all
}

// state returns the state of message i in the ledger.
func (r *round) state(t *testing.T, i int) Entry {
	t.Helper()
	all := r.run.Ledger.Of(personkey.Key(fmt.Sprint("key", i)))
	if len(all) != 1 {
		t.Fatalf("%d entries about message %d", len(all), i)
	}
	return all[0]
}

// arrived checks that each message arrived unchanged and once.
func (r *round) arrived(t *testing.T, numbers ...int) {
	t.Helper()
	all := parcels(1000)
	got := r.server.Messages()
	if len(got) != len(numbers) {
		t.Errorf("%d messages arrived, want %d", len(got), len(numbers))
		return
	}
	for at, i := range numbers {
		want, _ := all[i].Make()
		if got[at].To != all[i].Entry.To || got[at].From != r.run.From || !bytes.Equal(got[at].Data, want) {
			t.Errorf("message %d arrived as from %q to %q, %d bytes of %d", i, got[at].From, got[at].To, len(got[at].Data), len(want))
		}
	}
}

func TestSend(t *testing.T) {
	for name, secrecy := range map[string]mailtest.Secrecy{"plain, on this computer": mailtest.Plain, "STARTTLS": mailtest.StartTLS, "TLS from the start": mailtest.FromTheStart} {
		t.Run(name, func(t *testing.T) {
			r := start(t, secrecy)
			if err := r.run.Send(t.Context(), parcels(3)); err != nil {
				t.Fatal(err)
			}
			r.arrived(t, 0, 1, 2)
			if n := r.server.Sessions(); secrecy == mailtest.Plain && n != 1 {
				t.Errorf("%d connections for three messages", n)
			}
			for i, m := range r.server.Messages() {
				if m.Secret != (secrecy != mailtest.Plain) {
					t.Errorf("message %d: through TLS %v", i, m.Secret)
				}
				if e := r.state(t, i); e.State != Sent || !strings.HasPrefix(e.Answer, "250 ") || e.Time.IsZero() {
					t.Errorf("message %d: %+v", i, e)
				}
			}
		})
	}
}

func TestSignIn(t *testing.T) {
	for _, tt := range []struct {
		name, user, password string
		want                 error
	}{
		{"right", "pe", "river bank", nil},
		{"wrong password", "pe", "river", errSignIn},
		{"no user", "", "", errSender},
	} {
		r := start(t, mailtest.StartTLS)
		r.server.User, r.server.Password = "pe", "river bank"
		r.run.Server.User, r.run.Server.Password = tt.user, tt.password
		err := r.run.Send(t.Context(), parcels(2))
		if !errors.Is(err, tt.want) {
			t.Errorf("%s: %v", tt.name, err)
		}
		if tt.want == nil {
			r.arrived(t, 0, 1)
			if got := r.server.Messages()[0].User; got != tt.user {
				t.Errorf("sent as %q", got)
			}
			continue
		}
		r.arrived(t)
		if doubt := r.run.Ledger.InDoubt(); len(doubt) > 0 {
			t.Errorf("%s: in doubt: %+v", tt.name, doubt)
		}
		if strings.Contains(err.Error(), "river bank") {
			t.Errorf("the error tells the password: %v", err)
		}
	}
}

// No message or password goes to a server without a valid certificate, or without
// encryption to another computer.
func TestNotSecret(t *testing.T) {
	r := start(t, mailtest.StartTLS)
	r.run.Server.Roots = nil
	if err := r.run.Send(t.Context(), parcels(1)); !errors.Is(err, errCertificate) {
		t.Errorf("unknown certificate: %v", err)
	}
	r.arrived(t)
	r.run.Server.Roots = r.server.Roots
	for _, now := range []time.Time{time.Unix(-1e6, 0), time.Date(2099, 1, 1, 0, 0, 0, 0, time.UTC)} {
		r.run.Server.now = func() time.Time { return now }
		if err := r.run.Send(t.Context(), parcels(1)); !errors.Is(err, errCertificate) || !strings.Contains(err.Error(), "check this computer's date") || !strings.Contains(err.Error(), strconv.Itoa(now.Year())) {
			t.Errorf("a clock in %v: %v", now, err)
		}
	}
	r.arrived(t)
	elsewhere := func(secrecy mailtest.Secrecy) *round {
		r := start(t, secrecy)
		at := net.JoinHostPort(r.server.Host, strconv.Itoa(r.server.Port))
		r.run.Server.Host = "mail.quillhaven.example"
		r.run.Server.dial = func(ctx context.Context, network, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, network, at)
		}
		return r
	}
	for secrecy, want := range map[mailtest.Secrecy]error{mailtest.Plain: errNoTLS, mailtest.StartTLS: errCertificate} {
		r := elsewhere(secrecy)
		r.server.User, r.run.Server.User, r.run.Server.Password = "pe", "pe", "river bank"
		if err := r.run.Send(t.Context(), parcels(1)); !errors.Is(err, want) {
			t.Errorf("another computer: %v, want %v", err, want)
		}
		r.arrived(t)
		if got := r.run.Ledger.Of("key0"); got != nil {
			t.Errorf("a message was begun: %+v", got)
		}
	}
	for host, want := range map[string]bool{"localhost": true, "127.0.0.1": true, "127.8.8.8": true, "::1": true, "LocalHost": true,
		"": false, "10.0.0.1": false, "mail.example": false, "localhost.example": false, "0.0.0.0": false} {
		if isLoopback(host) != want {
			t.Errorf("%q is this computer: %v", host, !want)
		}
	}
}

func TestGreylisting(t *testing.T) {
	r := start(t, mailtest.Plain)
	tried := map[string]int{}
	r.server.Rcpt = func(to string) error {
		if tried[to]++; to != "p1@river.example" && tried[to] == 1 {
			return mailtest.Answer(450, "4.2.0 greylisted, come back")
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 1, 0, 2) // nobody waits for the one who was put off
	if fmt.Sprint(r.waited) != "[2]" {
		t.Errorf("waited for %v", r.waited)
	}
}

// A message put off in every round is tried again in the next run.
func TestPutOffForGood(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Data = func(to string, _ []byte) error {
		if to == "p0@river.example" {
			return mailtest.Answer(451, "4.3.0 no room now")
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(2)); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 1)
	if e := r.state(t, 0); e.State != Later || !strings.Contains(e.Answer, "451 4.3.0 no room now") {
		t.Errorf("%+v", e)
	}
	if fmt.Sprint(r.waited) != "[1 1]" {
		t.Errorf("waited for %v", r.waited)
	}
}

func TestRefused(t *testing.T) {
	r := start(t, mailtest.Plain)
	asked := 0
	r.server.Rcpt = func(to string) error {
		if to == "p1@river.example" {
			asked++
			return mailtest.Answer(550, "5.1.1 no such person\r\n250 forged")
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 0, 2)
	if e := r.state(t, 1); e.State != Refused || asked != 1 || strings.ContainsAny(e.Answer, "\r\n") {
		t.Errorf("asked %d times, %+v", asked, e)
	}
}

// If the server refuses all of the first messages the run ends, and the others are
// not marked as refused.
func TestAllRefused(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Rcpt = func(string) error { return mailtest.Answer(554, "5.7.1 relay access denied") }
	err := r.run.Send(t.Context(), parcels(20))
	if !errors.Is(err, errAllRefused) || !strings.Contains(err.Error(), "relay access denied") {
		t.Errorf("error %v", err)
	}
	if got := r.run.Ledger.Of("key5"); got != nil {
		t.Errorf("the sixth was tried: %+v", got)
	}
	for i := range mostRefused {
		if e := r.state(t, i); e.State != Unsent {
			t.Errorf("the fault of the set-up is put down to person %d: %+v", i, e)
		}
	}
}

func TestSenderRefused(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Mail = func(string) error { return mailtest.Answer(553, "5.7.1 not your address") }
	if err := r.run.Send(t.Context(), parcels(3)); !errors.Is(err, errSender) {
		t.Errorf("error %v", err)
	}
	if got := r.run.Ledger.Of("key0"); got != nil {
		t.Errorf("a message was begun: %+v", got)
	}
}

// A connection cut within a message: it is sent again only if the server cannot
// have all of it.
func TestCutWithinAMessage(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.CutAfter = 1000
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	switch e := r.state(t, 0); e.State {
	case Sent:
		r.arrived(t, 0, 1, 2)
	case Begun:
		r.arrived(t, 1, 2)
	default:
		t.Errorf("%+v", e)
	}
}

// A message longer than all buffers: the cut shows while it is written, so it was
// not delivered and is sent again.
func TestCutWithinALongMessage(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.CutAfter = 1000
	all := parcels(1)
	long := bytes.Repeat([]byte("filling of a long message\r\n"), 600_000)
	all[0].Make = func() ([]byte, error) { return long, nil }
	if err := r.run.Send(t.Context(), all); err != nil {
		t.Fatal(err)
	}
	if e := r.state(t, 0); e.State != Sent || len(r.server.Messages()) != 1 {
		t.Errorf("%d arrived, %+v", len(r.server.Messages()), e)
	}
}

// A connection cut before the answer: the message is in doubt and is not sent
// again.
func TestCutBeforeTheAnswer(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Kept = func(m mailtest.Message) error {
		if m.To == "p1@river.example" {
			return mailtest.ErrDrop
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 0, 1, 2)
	if doubt := r.run.Ledger.InDoubt(); len(doubt) != 1 || doubt[0].To != "p1@river.example" {
		t.Errorf("in doubt: %+v", doubt)
	}
}

// A server that closes between messages is connected again.
func TestServerCloses(t *testing.T) {
	r := start(t, mailtest.Plain)
	times := 0
	r.server.Mail = func(string) error {
		if times++; times == 2 {
			return mailtest.ErrDrop
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 0, 1, 2)
	if n := r.server.Sessions(); n != 2 {
		t.Errorf("%d connections", n)
	}
}

func TestUnreachable(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.run.Server.Port = 1 // nobody listens there
	if err := r.run.Send(t.Context(), parcels(2)); !errors.Is(err, errUnreachable) {
		t.Errorf("error %v", err)
	}
	if got := r.run.Ledger.Of("key0"); got != nil {
		t.Errorf("a message was begun: %+v", got)
	}
}

// A message that Make refuses does not stop the others.
func TestMakeFails(t *testing.T) {
	r := start(t, mailtest.Plain)
	all := parcels(3)
	wrong := errors.New("not this person's page")
	all[1].Make = func() ([]byte, error) { return nil, wrong }
	if err := r.run.Send(t.Context(), all); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 0, 2)
	if len(r.failed) != 1 || !errors.Is(r.failed[0], wrong) || r.run.Ledger.Of("key1") != nil {
		t.Errorf("failed: %v", r.failed)
	}
}

// A run stops between two messages: the present one gets its outcome.
func TestStop(t *testing.T) {
	r := start(t, mailtest.Plain)
	ctx, stop := context.WithCancel(t.Context())
	r.server.Data = func(to string, _ []byte) error {
		if to == "p1@river.example" {
			stop()
		}
		return nil
	}
	if err := r.run.Send(ctx, parcels(5)); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
	r.arrived(t, 0, 1)
	if e := r.state(t, 1); e.State != Sent {
		t.Errorf("%+v", e)
	}
	if doubt := r.run.Ledger.InDoubt(); len(doubt) > 0 {
		t.Errorf("in doubt: %+v", doubt)
	}
}

// The pace is the time between the starts of two messages.
func TestPace(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.run.Pace = time.Hour
	var waits []time.Duration
	r.run.wait = func(_ context.Context, d time.Duration) error {
		waits = append(waits, d)
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(4)); err != nil {
		t.Fatal(err)
	}
	if len(waits) != 4 || waits[0] > 0 {
		t.Fatalf("waited %v", waits)
	}
	for _, d := range waits[1:] {
		if d <= 0 || d > time.Hour {
			t.Errorf("waited %v", waits)
		}
	}
}

// A thousand people, and a server that sometimes puts off, closes or does not
// answer: each gets the page once.
func TestAThousand(t *testing.T) {
	r := start(t, mailtest.Plain)
	n, tried := 0, map[string]bool{}
	r.server.Rcpt = func(to string) error {
		n++
		switch {
		case n%97 == 0:
			return mailtest.ErrDrop
		case n%31 == 0 && !tried[to]:
			tried[to] = true
			return mailtest.Answer(450, "later")
		}
		return nil
	}
	kept := 0
	r.server.Kept = func(mailtest.Message) error {
		if kept++; kept%211 == 0 {
			return mailtest.ErrDrop
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(1000)); err != nil {
		t.Fatal(err)
	}
	got := map[string]int{}
	for _, m := range r.server.Messages() {
		got[m.To]++
	}
	for i := range 1000 {
		if to := fmt.Sprintf("p%d@river.example", i); got[to] != 1 {
			t.Errorf("%s got the message %d times", to, got[to])
		}
	}
	if doubt := r.run.Ledger.InDoubt(); len(doubt) != kept/211 {
		t.Errorf("%d in doubt, want %d", len(doubt), kept/211)
	}
}

// FuzzAnswerLine: any answer fits into a line of the ledger.
func FuzzAnswerLine(f *testing.F) {
	for _, text := range []string{"250 2.0.0 OK", "550\r\n5.1.1\tno", "\x1b[2J\x00", "\xff\xfe", strings.Repeat("é ", 400)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		line := answerLine(text)
		if !utf8.ValidString(line) || utf8.RuneCountInString(line) > maxAnswer || strings.ContainsFunc(line, unicode.IsControl) {
			t.Errorf("%q became %q", text, line)
		}
	})
}
