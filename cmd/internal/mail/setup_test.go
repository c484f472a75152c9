package mail

import (
	"bytes"
	"context"
	"errors"
	"net"
	"regexp"
	"strings"
	"testing"
	"time"

	"tenback/cmd/internal/mail/mailtest"
)

// The cause of a wrong port or setting is named, and no message is begun.
func TestWrongSetUp(t *testing.T) {
	for _, c := range []struct {
		name    string
		secrecy mailtest.Secrecy
		set     func(*Server)
		want    string // empty if the message arrives
	}{
		{"a port that waits for TLS", mailtest.FromTheStart, func(s *Server) { s.tlsFirst = false }, ""},
		{"TLS asked of a port without it", mailtest.StartTLS, func(s *Server) { s.tlsFirst = true }, "port 587"},
		{"a password without encryption", mailtest.Plain, func(s *Server) { s.User, s.Password = "pe", "river bank" }, "no password is sent without it"},
		{"an unknown root", mailtest.StartTLS, func(s *Server) { s.Roots = nil }, `--smtp-ca; the SHA-256 fingerprint of what the server showed is [0-9A-F]{2}(:[0-9A-F]{2}){31}$`},
		{"nothing there", mailtest.Plain, func(s *Server) { s.Port = 1 }, "nothing answers at port 1 "},
		{"no such computer", mailtest.Plain, func(s *Server) { s.Host = "nowhere.invalid" }, "no computer is called nowhere.invalid"},
	} {
		r := start(t, c.secrecy)
		r.server.User, r.server.Password = "pe", "river bank"
		if c.want == "" {
			r.run.Server.User, r.run.Server.Password = "pe", "river bank"
		}
		r.run.Server.greeting = 100 * time.Millisecond
		r.run.Redial = nil
		c.set(&r.run.Server)
		err := r.run.Send(t.Context(), parcels(1))
		if c.want == "" {
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			r.arrived(t, 0)
			continue
		}
		if err == nil || !regexp.MustCompile(c.want).MatchString(err.Error()) || strings.Contains(err.Error(), "river bank") {
			t.Errorf("%s: %v", c.name, err)
		}
		if got := r.run.Ledger.Of("key0"); got != nil {
			t.Errorf("%s: a message was begun: %+v", c.name, got)
		}
	}
}

// A message larger than the server takes is not tried, and the others are sent.
func TestTooLarge(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Most(8 << 10)
	all := parcels(3)
	all[1].Make = func() ([]byte, error) { return bytes.Repeat([]byte("filling\r\n"), 1000), nil }
	if err := r.run.Send(t.Context(), all); err != nil {
		t.Fatal(err)
	}
	r.arrived(t, 0, 2)
	if len(r.failed) != 1 || !strings.Contains(r.failed[0].Error(), "takes 8 KB") || r.run.Ledger.Of("key1") != nil {
		t.Errorf("failed: %v", r.failed)
	}
}

// A refusal that says nothing of the address counts once other messages are accepted.
func TestRefusedAfterOthers(t *testing.T) {
	r := start(t, mailtest.Plain)
	r.server.Rcpt = func(to string) error {
		if to != "p1@river.example" {
			return mailtest.Answer(550, "5.7.1 not wanted")
		}
		return nil
	}
	if err := r.run.Send(t.Context(), parcels(3)); err != nil {
		t.Fatal(err)
	}
	for i, want := range []State{Unsent, Sent, Refused} {
		if e := r.state(t, i); e.State != want {
			t.Errorf("message %d: %+v, want %s", i, e, want)
		}
	}
}

// Ctrl-C ends an attempt to connect to a port that says nothing.
func TestStopWhileConnecting(t *testing.T) {
	silent, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()
	r := start(t, mailtest.Plain)
	r.run.Server.Port = silent.Addr().(*net.TCPAddr).Port
	ctx, stop := context.WithCancel(t.Context())
	time.AfterFunc(50*time.Millisecond, stop)
	if err := r.run.Send(ctx, parcels(1)); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
