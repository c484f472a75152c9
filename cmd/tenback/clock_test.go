package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"tenback/cmd/internal/mailserver"
)

// farOff are times that a clock gives whose battery is empty, or that somebody
// has set wrong.
var farOff = []time.Time{time.Unix(0, 0), time.Date(2099, 12, 31, 23, 59, 59, 0, time.UTC)}

// setTimes gives everything in a folder the same time.
func setTimes(t *testing.T, folder string, at time.Time) {
	t.Helper()
	if err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		return os.Chtimes(path, at, at)
	}); err != nil {
		t.Fatal(err)
	}
}

// What lies there is known by what it holds: wherever the clock was set in
// between, no page is made anew, and what was left half written is cleared away.
func TestFileTimesFarOff(t *testing.T) {
	for _, at := range farOff {
		path := weekOf(t, 5, -1, 0)
		out := filepath.Dir(path)
		folder := filepath.Join(out, "week-reports")
		runQuiet(t, path, out)
		for _, dir := range []string{out, folder} {
			if err := os.WriteFile(filepath.Join(dir, ".tenback-1.tmp"), []byte("%PDF-"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		setTimes(t, out, at)
		before := filesOf(t, folder)
		runQuiet(t, path, out)
		after := filesOf(t, folder)
		if len(after) != 7 { // with the secret and the account
			t.Errorf("%v: %d files", at, len(after))
		}
		for name, info := range after {
			if !os.SameFile(info, before[name]) {
				t.Errorf("%v: %s was written anew", at, name)
			}
		}
		if left, err := filepath.Glob(filepath.Join(out, ".tenback-*.tmp")); len(left) > 0 || err != nil {
			t.Errorf("%v: %v is left, %v", at, left, err)
		}
	}
}

// A desk goes by whether a file has changed, not by which is the newer one.
func TestDeskWithTheClockSetBack(t *testing.T) {
	path := weekOf(t, 3, 1, 140)
	setTimes(t, path, farOff[1])
	out, closeDesk := openDesk(t, path)
	out.await(t, "Scored 3 of 3 people")
	changed, err := os.ReadFile(weekOf(t, 3, 1, 151))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, changed, 0o600); err != nil {
		t.Fatal(err)
	}
	setTimes(t, path, farOff[0])
	out.await(t, "Scored: Person 0001")
	if status := closeDesk(); status != 0 {
		t.Errorf("status %d:\n%s", status, out)
	}
}

// The ledger goes by the order of its lines: entries from long ago or from the
// future send nobody a message twice, and leave nobody out.
func TestLedgerTimesFarOff(t *testing.T) {
	for _, at := range farOff {
		s := mailserver.Start(t, mailserver.Plain)
		b := postRoster(t, 3)
		dropFirst(s)
		if _, status := said(t, b.post(s, "--yes"), ""); status != statusLeftOut {
			t.Fatalf("status %d", status)
		}
		lines, err := os.ReadFile(b.ledgerFile())
		if err != nil {
			t.Fatal(err)
		}
		lines = regexp.MustCompile(`"time":"[^"]*"`).ReplaceAll(lines, fmt.Appendf(nil, `"time":%q`, at.Format(time.RFC3339)))
		if err := os.WriteFile(b.ledgerFile(), lines, 0o600); err != nil {
			t.Fatal(err)
		}
		setTimes(t, b.dir, at)
		text, _ := said(t, b.post(s, "--yes", "--in-doubt", "leave"), "")
		wantText(t, text, "begun .* "+at.Local().Format("2006"), "2 messages already sent")
		s.Change(func() { s.Kept = nil })
		said(t, b.post(s, "--yes", "--in-doubt", "unsent"), "")
		said(t, b.post(s, "--yes"), "")
		if got := fmt.Sprint(received(s)); got != "map[p0@river.example:2 p1@river.example:1 p2@river.example:1]" {
			t.Errorf("%v: received %s", at, got)
		}
		finish(t, command("forget", b.file(".csv"), "--id", "1", "--yes"))
	}
}
