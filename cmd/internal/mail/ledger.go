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

// State is how far a message got.
type State string

// The states of a message.
const (
	Begun   State = "begun"   // handed to the server; in doubt if it is the last that is known
	Sent    State = "sent"    // the server took it
	Later   State = "later"   // the server did not take it yet
	Refused State = "refused" // the server will not take it
	Unsent  State = "unsent"  // it did not get to the server, or someone said that it did not arrive
	// Forgotten is a message of a person who was forgotten since. Nothing is
	// left of it but whose it was, as a sum that tells nobody who that is.
	Forgotten State = "forgotten"
)

// Entry is what became of one message at one time: a line of the file.
type Entry struct {
	Time   time.Time     `json:"time"`
	State  State         `json:"state"`
	Person personkey.Key `json:"person"` // of a forgotten one its sum
	Name   string        `json:"name,omitempty"`
	Page   string        `json:"page,omitempty"`   // file name
	SHA256 string        `json:"sha256,omitempty"` // of the page, before a password was put on it
	To     string        `json:"to,omitempty"`     // address
	Answer string        `json:"answer,omitempty"` // the server's words, or what is known in their place
}

// ID tells messages apart: one page for one person to one address, however
// often it is sent.
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
	last   map[string]Entry // by ID, what is known last
	order  []string         // of the IDs, by first mention
	people map[personkey.Key][]string
}

const (
	// ledgerLineMost bounds a line; an address and an answer are far shorter.
	ledgerLineMost = 64 << 10
	// ledgerMost bounds the file: about two million messages, years of them to the
	// most people in a roster.
	ledgerMost = 1 << 30
)

// OpenLedger opens the ledger at path, and makes it where there is none. A line cut
// short at the end, by a stop while it was written, is dropped: the message is
// then as the line before says. Any other damage is an error.
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

// openLedgerFile opens a ledger that is there.
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

// readLedger hands over the entries and gives where the last whole line ends.
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
			return 0, damagedLedger(n, errors.New("it says nothing of a message"))
		}
		take(e)
		end += int64(len(line))
	}
}

func damagedLedger(line int, err error) error {
	return fmt.Errorf("the ledger is damaged in line %d (%w); it says who was sent a page, so bring back a sound copy of it, or delete the line and expect that its person may be sent the page again", line, err)
}

// continueAt drops what stands behind the last whole line.
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

// Write adds an entry and returns when it is safe on the disk.
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

// Of gives what is known last of each message to a person, in the order in
// which they were first sent.
func (l *Ledger) Of(person personkey.Key) []Entry {
	var all []Entry
	for _, id := range l.people[person] {
		all = append(all, l.last[id])
	}
	return all
}

// IsForgotten tells whether the person was forgotten.
func (l *Ledger) IsForgotten(person personkey.Key) bool {
	return len(l.people[forgottenKey(person)]) > 0
}

// InDoubt lists the messages that were begun and have no outcome.
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

// forgottenKey is what is left of a person's key when the person is forgotten.
func forgottenKey(person personkey.Key) personkey.Key {
	sum := sha256.Sum256([]byte("forgotten " + person))
	return personkey.Key(hex.EncodeToString(sum[:16]))
}

// LedgerLines gives the entries of the ledger at path that are about a person, by key
// or, where the key is not known any more, by a name that the caller compares.
// A ledger that is not there has none.
func LedgerLines(path string, about func(*Entry) bool) ([]Entry, error) {
	var found []Entry
	err := loadLedger(path, func(e Entry) {
		if e.State != Forgotten && about(&e) {
			found = append(found, e)
		}
	})
	return found, err
}

// loadLedger hands over the entries of a ledger, which need not be there.
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

// ForgetInLedger puts in place of all lines about people one for each of them, which
// says only that there was someone, and when the last message was.
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
