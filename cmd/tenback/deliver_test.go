package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/mail/mailtest"
)

// postRoster writes a roster of adults with addresses, and their pages.
func postRoster(t *testing.T, people int) batch.Files {
	t.Helper()
	var b strings.Builder
	b.WriteString("ID,Name,Sex,Age,1.5 mile run,Email\n")
	for i := range people {
		fmt.Fprintf(&b, "%d,Person %d,F,30,12:%02d,p%d@river.example\n", i, i, i%60, i)
	}
	dir := t.TempDir()
	roster := filepath.Join(dir, "post.csv")
	if err := os.WriteFile(roster, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	finish(t, command("run", "--quiet", roster))
	return batch.FilesOf(roster)
}

// post is the deliver command to a server, without a limit on the pace.
func post(b batch.Files, s *mailtest.Server, args ...string) *exec.Cmd {
	all := []string{"deliver", b.File("-scored.xlsx"), "--smtp", "127.0.0.1:" + strconv.Itoa(s.Port), "--from", "PE office <pe@quillhaven.example>", "--pace", "600000"}
	return command(append(all, args...)...)
}

// said runs a command with answers, and returns its output and exit status.
func said(t *testing.T, cmd *exec.Cmd, answers string) (text string, status int) {
	t.Helper()
	return saidBy(t, cmd, answers, func(*os.Process) {})
}

// saidBy is said; it passes the running process to started.
func saidBy(t *testing.T, cmd *exec.Cmd, answers string, started func(*os.Process)) (text string, status int) {
	t.Helper()
	var out bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(answers), &out, &out
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	started(cmd.Process)
	_ = cmd.Wait() // how it ended is its status
	return out.String(), cmd.ProcessState.ExitCode()
}

// received counts the messages by recipient.
func received(s *mailtest.Server) map[string]int {
	got := map[string]int{}
	for _, m := range s.Messages() {
		got[m.To]++
	}
	return got
}

func wantText(t *testing.T, text string, parts ...string) {
	t.Helper()
	for _, part := range parts {
		if !regexp.MustCompile(part).MatchString(text) {
			t.Errorf("it does not say %q:\n%s", part, text)
		}
	}
}

// Nothing is sent before a yes. Then each person gets a message, and a second run
// sends none.
func TestSendingAsks(t *testing.T) {
	s := mailtest.Start(t, mailtest.StartTLS)
	roots := filepath.Join(t.TempDir(), "roots.pem")
	if err := os.WriteFile(roots, s.PEM, 0o600); err != nil {
		t.Fatal(err)
	}
	s.User, s.Password = "pe", "river bank"
	b := postRoster(t, 3)
	send := func(answers string, args ...string) (string, int) {
		cmd := post(b, s, append(args, "--user", "pe")...)
		cmd.Env = append(os.Environ(), "SSL_CERT_FILE="+roots, smtpPasswordVariable+"=river bank")
		return said(t, cmd, answers)
	}
	for _, answers := range []string{"", "no\n", "perhaps\nno\n"} {
		text, status := send(answers)
		wantText(t, text, `To send: 3 messages from "PE office" <pe@quillhaven.example>`, `Person 1 +p1@river.example +Person 1.pdf`, `Send 3 messages through 127.0.0.1\?`, `Nothing was sent; --yes`)
		if status != statusLeftOut || len(s.Messages()) > 0 {
			t.Fatalf("after %q: status %d, %d messages", answers, status, len(s.Messages()))
		}
	}
	text, status := send("yes\n")
	wantText(t, text, `sent +Person 2 +p2@river.example +250 `, `Sent +3 of 3 messages`)
	if strings.Contains(text, "river bank") {
		t.Error("the password is printed")
	}
	if got := received(s); status != statusOK || len(got) != 3 || len(s.Messages()) != 3 {
		t.Errorf("status %d, received %v", status, got)
	}
	for _, m := range s.Messages() {
		if !m.Secret || m.User != "pe" || m.From != "pe@quillhaven.example" || bytes.Contains(m.Data, []byte("X-Unsent")) {
			t.Errorf("sent through TLS %v, by %q from %q", m.Secret, m.User, m.From)
		}
	}
	text, status = send("", "--yes")
	wantText(t, text, `3 messages already sent`, `Nothing to send`)
	if status != statusOK || len(s.Messages()) != 3 {
		t.Errorf("status %d, %d messages", status, len(s.Messages()))
	}
}

// A page or address that has changed since is reported, and sent on request.
func TestSendingAgain(t *testing.T) {
	s := mailtest.Start(t, mailtest.Plain)
	b := postRoster(t, 3)
	if _, status := said(t, post(b, s, "--yes"), ""); status != statusOK {
		t.Fatalf("status %d", status)
	}
	roster := b.File(".csv")
	data, err := os.ReadFile(roster)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(strings.Replace(string(data), "12:00", "11:00", 1), "p1@river", "new1@river", 1)
	if err := os.WriteFile(roster, []byte(changed), 0o600); err != nil {
		t.Fatal(err)
	}
	finish(t, command("run", "--quiet", roster))
	text, status := said(t, post(b, s, "--yes"), "")
	wantText(t, text, `1 message already sent`, `2 messages sent before, and the page or the address has changed`, `Person 0: p0@river.example`, `Person 1: new1@river.example`)
	if status != statusLeftOut || len(s.Messages()) != 3 {
		t.Errorf("status %d, %d messages", status, len(s.Messages()))
	}
	_, status = said(t, post(b, s, "--yes", "--again"), "")
	if got := fmt.Sprint(received(s)); status != statusOK || got != "map[new1@river.example:1 p0@river.example:2 p1@river.example:1 p2@river.example:1]" {
		t.Errorf("status %d, received %v", status, got)
	}
}

// A refused message is reported and not tried again without --again.
func TestSendingRefused(t *testing.T) {
	s := mailtest.Start(t, mailtest.Plain)
	var asked atomic.Int32
	s.Change(func() {
		s.Rcpt = func(to string) error {
			if to == "p1@river.example" {
				asked.Add(1)
				return mailtest.Answer(550, "5.1.1 nobody of that name")
			}
			return nil
		}
	})
	b := postRoster(t, 3)
	for range 2 {
		text, status := said(t, post(b, s, "--yes"), "")
		wantText(t, text, `refused`, `p1@river.example`)
		if status != statusLeftOut || asked.Load() != 1 || len(s.Messages()) != 2 {
			t.Errorf("status %d, asked %d times, %d messages\n%s", status, asked.Load(), len(s.Messages()), text)
		}
	}
}

// A delivery killed at any moment continues: no message twice, none forgotten. It
// asks about a message in doubt.
func TestKilledDelivery(t *testing.T) {
	const people, every = 24, 4
	s := mailtest.Start(t, mailtest.Plain)
	b := postRoster(t, people)
	var sender atomic.Pointer[os.Process]
	var n atomic.Int64
	die := func() error {
		for sender.Load() == nil {
			runtime.Gosched() // it has begun to send before we were told of it
		}
		_ = sender.Load().Kill()
		return mailtest.ErrDrop
	}
	s.Change(func() {
		s.Data = func(string, []byte) error { // the server does not get to keep it
			if n.Add(1)%(2*every) == 0 {
				return die()
			}
			return nil
		}
		s.Kept = func(mailtest.Message) error { // the sender does not get to know
			if n.Load()%(2*every) == every {
				return die()
			}
			return nil
		}
	})
	runs, doubts := 0, 0
	for done := false; !done; runs++ {
		if runs > people {
			t.Fatal("the delivery does not come to an end")
		}
		sender.Store(nil)
		book, err := mail.OpenLedger(b.Ledger())
		if err != nil {
			t.Fatal(err)
		}
		got, answers := received(s), ""
		for _, e := range book.InDoubt() {
			doubts++
			answer := "unsent\n"
			if got[e.To] > 0 {
				answer = "sent\n"
			}
			answers += answer
		}
		book.Close()
		text, status := saidBy(t, post(b, s, "--yes"), answers, sender.Store)
		done = status == statusOK
		if answers != "" {
			wantText(t, text, `In doubt: 1 message`, `Person \d+: Person \d+.pdf to p\d+@river.example, begun \d+`)
		}
	}
	if runs < 5 || doubts != runs-1 {
		t.Errorf("%d runs, asked %d times", runs, doubts)
	}
	got := received(s)
	for i := range people {
		if to := fmt.Sprintf("p%d@river.example", i); got[to] != 1 {
			t.Errorf("%s received %d messages", to, got[to])
		}
	}
}

// dropFirst makes a server keep the first person's messages and close without an
// answer.
func dropFirst(s *mailtest.Server) {
	s.Change(func() {
		s.Kept = func(m mailtest.Message) error {
			if m.To == "p0@river.example" {
				return mailtest.ErrDrop
			}
			return nil
		}
	})
}

// Without an answer a doubt remains, and the other messages are sent.
func TestDoubtLeft(t *testing.T) {
	s := mailtest.Start(t, mailtest.Plain)
	b := postRoster(t, 3)
	dropFirst(s)
	for range 2 {
		text, status := said(t, post(b, s, "--yes"), "")
		wantText(t, text, `1 (message )?in doubt`)
		if got := received(s); status != statusLeftOut || len(got) != 3 || len(s.Messages()) != 3 {
			t.Errorf("status %d, received %v", status, got)
		}
	}
	for _, answer := range []string{"leave", "sent"} {
		text, status := said(t, post(b, s, "--yes", "--in-doubt", answer), "")
		wantText(t, text, `Person 0: Person 0.pdf to p0@river.example, begun .*: `+answer)
		if want := map[string]int{"leave": statusLeftOut, "sent": statusOK}[answer]; status != want || len(s.Messages()) != 3 {
			t.Errorf("%s: status %d, %d messages", answer, status, len(s.Messages()))
		}
	}
}

// Another person's page under the own file name is not sent.
func TestExchangedPages(t *testing.T) {
	s := mailtest.Start(t, mailtest.Plain)
	b := postRoster(t, 3)
	one, other := filepath.Join(b.Pages(), "Person 0.pdf"), filepath.Join(b.Pages(), "Person 1.pdf")
	third := filepath.Join(b.Pages(), "third")
	for _, move := range [][2]string{{one, third}, {other, one}, {third, other}} {
		if err := os.Rename(move[0], move[1]); err != nil {
			t.Fatal(err)
		}
	}
	text, status := said(t, post(b, s, "--yes"), "")
	wantText(t, text, `post!B2  "Person 0"`, `post!B3  "Person 1"`, `made for somebody else`)
	if got := received(s); status != statusLeftOut || fmt.Sprint(got) != "map[p2@river.example:1]" {
		t.Errorf("status %d, received %v", status, got)
	}
}
