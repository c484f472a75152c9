package mail

import (
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"tenback/cmd/internal/personkey"
)

var noon = time.Date(2026, 5, 11, 12, 0, 0, 0, time.UTC)

func entryOf(person, page, to string, state State) Entry {
	return Entry{Time: noon, State: state, Person: personkey.Key(person), Name: "N " + person, Page: page + ".pdf", SHA256: "sum of " + page, To: to, Answer: "250 " + person}
}

func openLedger(t *testing.T, path string) *Ledger {
	t.Helper()
	l, err := OpenLedger(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

func writeEntries(t *testing.T, l *Ledger, all ...Entry) {
	t.Helper()
	for _, e := range all {
		if err := l.Write(e); err != nil {
			t.Fatal(err)
		}
	}
}

// The next run reads the latest entry of each message.
func TestLedger(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ledger")
	l := openLedger(t, path)
	writeEntries(t, l, entryOf("a", "ida", "ida@x.example", Begun), entryOf("a", "ida", "ida@x.example", Sent),
		entryOf("b", "ben", "ben@x.example", Begun), entryOf("b", "ben", "ben@x.example", Later),
		entryOf("c", "cyd", "cyd@x.example", Begun),
		entryOf("a", "ida", "ida@y.example", Begun), entryOf("a", "ida", "ida@y.example", Refused))
	check := func(l *Ledger) {
		t.Helper()
		if got, want := l.Of("a"), []Entry{entryOf("a", "ida", "ida@x.example", Sent), entryOf("a", "ida", "ida@y.example", Refused)}; !reflect.DeepEqual(got, want) {
			t.Errorf("of a: %+v", got)
		}
		if got, want := l.InDoubt(), []Entry{entryOf("c", "cyd", "cyd@x.example", Begun)}; !reflect.DeepEqual(got, want) {
			t.Errorf("in doubt: %+v", got)
		}
		if got := l.Of("nobody"); got != nil {
			t.Errorf("of nobody: %+v", got)
		}
	}
	check(l)
	l.Close()
	again := openLedger(t, path)
	check(again)
	writeEntries(t, again, entryOf("c", "cyd", "cyd@x.example", Unsent))
	if got := openLedger(t, path).InDoubt(); got != nil {
		t.Errorf("in doubt: %+v", got)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("others can read the ledger: %v", info.Mode())
	}
}

// A stop at any byte of a line loses only that line. A message whose outcome is
// lost is in doubt and is not sent again silently.
func TestLedgerCutShort(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "whole")
	l := openLedger(t, path)
	writeEntries(t, l, entryOf("a", "ida", "ida@x.example", Begun))
	begun, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	writeEntries(t, l, entryOf("a", "ida", "ida@x.example", Sent))
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(whole) {
		cut := filepath.Join(dir, "cut")
		if err := os.WriteFile(cut, whole[:n], 0o600); err != nil {
			t.Fatal(err)
		}
		l, err := OpenLedger(cut)
		if err != nil {
			t.Fatalf("cut at %d: %v", n, err)
		}
		if got, want := len(l.InDoubt()) == 1, n >= len(begun); got != want {
			t.Errorf("cut at %d: in doubt %v, want %v", n, got, want)
		}
		writeEntries(t, l, entryOf("b", "ben", "ben@x.example", Begun))
		l.Close()
		if again := openLedger(t, cut); len(again.Of("b")) != 1 {
			t.Errorf("cut at %d: the next line was lost", n)
		}
	}
}

func TestDamagedLedger(t *testing.T) {
	for name, text := range map[string]string{
		"no JSON in the middle": "{\"state\":\"sent\",\"person\":\"a\"}\nrubbish\n{\"state\":\"sent\",\"person\":\"a\"}\n",
		"another file":          "Name,Result\nIda,12\n",
		"nothing said":          "{}\n",
		"a very long line":      strings.Repeat("x", 2*ledgerLineMost) + "\n",
	} {
		path := filepath.Join(t.TempDir(), "ledger")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := OpenLedger(path)
		if err == nil || !strings.Contains(err.Error(), "damaged in line") {
			t.Errorf("%s: %v", name, err)
		}
		if got, _ := os.ReadFile(path); string(got) != text {
			t.Errorf("%s: the damaged ledger was changed", name)
		}
	}
}

// After forgetting a person the ledger has no personal data of them, and the other
// entries are unchanged.
func TestForgetInLedger(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ledger")
	l := openLedger(t, path)
	writeEntries(t, l, entryOf("a", "ida", "ida@x.example", Begun), entryOf("b", "ben", "ben@x.example", Begun), entryOf("b", "ben", "ben@x.example", Sent), entryOf("a", "ida", "ida@x.example", Sent))
	l.Close()
	ida := func(e *Entry) bool { return e.Person == "a" }
	if found, err := LedgerLines(path, ida); err != nil || len(found) != 2 {
		t.Errorf("%d lines, %v", len(found), err)
	}
	for range 2 { // the second time there is nothing left to do
		if err := ForgetInLedger(path, ida); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"ida", "N a", `"a"`, "250 a"} {
		if strings.Contains(string(text), word) {
			t.Errorf("%q is left in\n%s", word, text)
		}
	}
	l = openLedger(t, path)
	if !l.IsForgotten("a") || l.IsForgotten("b") || len(l.Of("a")) != 0 || len(l.Of("b")) != 1 {
		t.Errorf("after forgetting:\n%s", text)
	}
	if found, err := LedgerLines(path, ida); err != nil || len(found) != 0 {
		t.Errorf("%d lines, %v", len(found), err)
	}
	if err := ForgetInLedger(filepath.Join(t.TempDir(), "none"), ida); err != nil {
		t.Errorf("no ledger: %v", err)
	}
}

// FuzzOpenLedger: any file opens as a ledger or with an error, and a ledger opens
// again with the same entries.
func FuzzOpenLedger(f *testing.F) {
	f.Add("{\"state\":\"sent\",\"person\":\"a\"}\n{\"sta")
	f.Fuzz(func(t *testing.T, text string) {
		path := filepath.Join(t.TempDir(), "ledger")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		l, err := OpenLedger(path)
		if err != nil {
			return
		}
		doubt := len(l.InDoubt())
		l.Close()
		again, err := OpenLedger(path)
		if err != nil || len(again.InDoubt()) != doubt {
			t.Fatalf("opened once and not twice: %v", err)
		}
		again.Close()
	})
}
