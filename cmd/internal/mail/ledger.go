package mail

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"tenback/cmd/internal/personkey"
	"tenback/workbook/safefile"
)

// State is the state of a message.
type State string

// The states of a message.
const (
	Begun   State = "begun"   // handed to the server; in doubt if it is the last state
	Sent    State = "sent"    // the server took it
	Later   State = "later"   // the server put it off
	Refused State = "refused" // the server refuses it
	Unsent  State = "unsent"  // not handed over, or reported as not arrived
	// Forgotten replaces the messages of a person who was forgotten. Only a hash
	// of the person's key is left.
	Forgotten State = "forgotten"
)

// Entry is a line of the ledger: the state of one message at one time.
type Entry struct {
	Time   time.Time     `json:"time"`
	State  State         `json:"state"`
	Person personkey.Key `json:"person"` // a hash of it if forgotten
	Name   string        `json:"name,omitempty"`
	Page   string        `json:"page,omitempty"`   // file name
	SHA256 string        `json:"sha256,omitempty"` // of the page, before a password was put on it
	To     string        `json:"to,omitempty"`     // address
	Answer string        `json:"answer,omitempty"` // of the server, or what is known instead
}

// ID identifies a message: one page of one person to one address, however often
// it is sent.
func (e *Entry) ID() string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%s\n%s", e.Person, e.SHA256, e.To))
	return hex.EncodeToString(sum[:16])
}

// Ledger is a file that records each message before and after it is sent. Both
// lines are flushed to the disk. After a stop at any moment each message was not
// begun, has an outcome, or is in doubt: begun, and only a person can find out
// whether it arrived. A Ledger is for one goroutine.
type Ledger struct {
	file   *os.File
	last   map[string]Entry // by ID, the latest
	order  []string         // IDs by first entry
	people map[personkey.Key][]string
}

const (
	// ledgerLineMost bounds a line; an address and an answer are far shorter.
	ledgerLineMost = 64 << 10
	// ledgerMost bounds the bytes of the file: about two million messages.
	ledgerMost = 1 << 30
)

// OpenLedger opens or creates the ledger at path. It drops an incomplete last line,
// which a stop while writing leaves. Any other damage is an error.
func OpenLedger(path string) (*Ledger, error) {
	err := safefile.WriteNew(path, func(io.Writer) error { return nil })
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, fmt.Errorf("the ledger cannot be made: %w", err)
	}
	f, err := openLedgerFile(path, os.O_RDWR)
	if err != nil {
		return nil, err
	}
	l := &Ledger{file: f, last: map[string]Entry{}, people: map[personkey.Key][]string{}}
	end, err := readLedger(f, l.note)
	if err == nil {
		err = l.continueAt(end)
	}
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return l, nil
}

// openLedgerFile opens an existing ledger.
func openLedgerFile(path string, flag int) (*os.File, error) {
	f, info, err := safefile.OpenPlain(path, flag)
	if err == nil && info.Size() > ledgerMost {
		f.Close()
		err = safefile.ErrTooLarge
	}
	switch {
	case errors.Is(err, safefile.ErrNotPlain), errors.Is(err, safefile.ErrTooLarge):
		return nil, fmt.Errorf("%s: the ledger cannot be used (%w); it says who was sent a page, so bring back a sound copy of it, or move it away and expect that people may be sent a page again", path, err)
	case err != nil:
		return nil, fmt.Errorf("the ledger cannot be opened: %w", err)
	}
	return f, nil
}

// readLedger calls take for each entry and returns where the last whole line ends.
func readLedger(r io.Reader, take func(Entry)) (end int64, err error) {
	lines := bufio.NewReaderSize(r, ledgerLineMost)
	for n := 1; ; n++ {
		line, err := lines.ReadSlice('\n')
		switch {
		case errors.Is(err, io.EOF):
			return end, nil
		case errors.Is(err, bufio.ErrBufferFull):
			return 0, damagedLedger(n, err)
		case err != nil:
			return 0, err
		}
		var e Entry
		if err := json.Unmarshal(line, &e); err != nil {
			return 0, damagedLedger(n, err)
		}
		if e.State == "" || e.Person == "" {
			return 0, damagedLedger(n, errors.New("it describes no message"))
		}
		take(e)
		end += int64(len(line))
	}
}

func damagedLedger(line int, err error) error {
	return fmt.Errorf("the ledger is damaged in line %d (%w); it says who was sent a page, so bring back a sound copy of it, or delete the line and expect that its person may be sent the page again", line, err)
}

// continueAt truncates the file at end.
func (l *Ledger) continueAt(end int64) error {
	if err := l.file.Truncate(end); err != nil {
		return err
	}
	_, err := l.file.Seek(end, io.SeekStart)
	return err
}

func (l *Ledger) note(e Entry) {
	id := e.ID()
	if _, known := l.last[id]; !known {
		l.order = append(l.order, id)
		l.people[e.Person] = append(l.people[e.Person], id)
	}
	l.last[id] = e
}

// Write appends an entry and flushes it to the disk.
func (l *Ledger) Write(e Entry) error {
	line, err := json.Marshal(e)
	if err != nil {
		return err
	}
	if _, err := l.file.Write(append(line, '\n')); err != nil {
		return fmt.Errorf("the ledger cannot be written: %w", err)
	}
	if err := l.file.Sync(); err != nil {
		return fmt.Errorf("the ledger cannot be forced to the disk: %w", err)
	}
	l.note(e)
	return nil
}

// Of returns the latest entry of each message to a person, in the order of their
// first.
func (l *Ledger) Of(person personkey.Key) []Entry {
	var all []Entry
	for _, id := range l.people[person] {
		all = append(all, l.last[id])
	}
	return all
}

// IsForgotten reports whether the person was forgotten.
func (l *Ledger) IsForgotten(person personkey.Key) bool {
	return len(l.people[forgottenKey(person)]) > 0
}

// InDoubt returns the messages that were begun and have no outcome.
func (l *Ledger) InDoubt() []Entry {
	var all []Entry
	for _, id := range l.order {
		if e := l.last[id]; e.State == Begun {
			all = append(all, e)
		}
	}
	return all
}

// Close closes the file.
func (l *Ledger) Close() error { return l.file.Close() }

// forgottenKey hashes the key of a forgotten person.
func forgottenKey(person personkey.Key) personkey.Key {
	sum := sha256.Sum256([]byte("forgotten " + person))
	return personkey.Key(hex.EncodeToString(sum[:16]))
}

// LedgerLines returns the entries of the ledger at path for which about is true. A
// missing ledger has none.
func LedgerLines(path string, about func(*Entry) bool) ([]Entry, error) {
	var found []Entry
	err := loadLedger(path, func(e Entry) {
		if e.State != Forgotten && about(&e) {
			found = append(found, e)
		}
	})
	return found, err
}

// loadLedger calls take for each entry of a ledger, which need not exist.
func loadLedger(path string, take func(Entry)) error {
	f, err := openLedgerFile(path, os.O_RDONLY)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	if _, err := readLedger(f, take); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

// ForgetInLedger replaces the lines about people by one line each, which keeps only
// a hash of the key and the time of the last message.
func ForgetInLedger(path string, about func(*Entry) bool) error {
	var kept []Entry
	at := map[personkey.Key]int{}
	err := loadLedger(path, func(e Entry) {
		if e.State == Forgotten || !about(&e) {
			kept = append(kept, e)
			return
		}
		gone := Entry{Time: e.Time, State: Forgotten, Person: forgottenKey(e.Person)}
		if i, known := at[e.Person]; known {
			kept[i] = gone
			return
		}
		at[e.Person] = len(kept)
		kept = append(kept, gone)
	})
	if err != nil || len(kept) == 0 {
		return err
	}
	return safefile.Write(path, func(w io.Writer) error {
		out := json.NewEncoder(w)
		out.SetEscapeHTML(false)
		for _, e := range kept {
			if err := out.Encode(e); err != nil {
				return err
			}
		}
		return nil
	})
}
