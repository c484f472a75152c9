package mail

import (
	"bytes"
	"fmt"
	"mime"
	"net/mail"
	"strings"
	"time"

	gomail "github.com/wneessen/go-mail"
)

// Letter is a message to one recipient with a page attached. Its texts are encoded
// here, so that none can end a header and begin another.
type Letter struct {
	From    *mail.Address // nil in a draft: the mail program adds it
	To      mail.Address  // the name may be empty
	Subject string
	Text    string
	Lang    string // of the text, such as "en"
	Page    []byte // the PDF
	File    string // its name
	// ID is the part of the Message-ID before the @. The same letter sent again
	// has the same ID.
	ID   string
	Date time.Time
}

// Draft returns an .eml file that mail programs open as an unsent message.
func (l *Letter) Draft() ([]byte, error) {
	m, err := l.message()
	if err != nil {
		return nil, err
	}
	m.SetGenHeader("X-Unsent", "1")
	return written(m)
}

// Bytes returns the letter as sent, with CRLF line ends. It needs a sender.
func (l *Letter) Bytes() ([]byte, error) {
	if l.From == nil {
		return nil, fmt.Errorf("the letter to %s has no sender", l.To.Address)
	}
	m, err := l.message()
	if err != nil {
		return nil, err
	}
	// Asks for no automatic answers (RFC 3834).
	m.SetGenHeader("Auto-Submitted", "auto-generated")
	return written(m)
}

func written(m *gomail.Msg) ([]byte, error) {
	var out bytes.Buffer
	if _, err := m.WriteTo(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func (l *Letter) message() (*gomail.Msg, error) {
	m := gomail.NewMsg(gomail.WithNoDefaultUserAgent())
	domain := "localhost"
	if l.From != nil {
		if err := checkAddress(*l.From); err != nil {
			return nil, err
		}
		m.FromMailAddress(l.From)
		domain = l.From.Address[strings.LastIndexByte(l.From.Address, '@')+1:]
	}
	if err := checkAddress(l.To); err != nil {
		return nil, err
	}
	m.ToMailAddress(&l.To)
	m.Subject(l.Subject)
	m.SetDateWithValue(l.Date)
	m.SetMessageIDWithValue(l.ID + "@" + domain)
	m.SetGenHeader("Content-Language", l.Lang)
	m.SetBodyString(gomail.TypeTextPlain, l.Text)
	if err := m.AttachReader(l.File, bytes.NewReader(l.Page), gomail.WithFileContentType("application/pdf")); err != nil {
		return nil, err
	}
	// The library encodes other letters in an outdated way; RFC 2231 is current.
	name := map[string]string{"filename": l.File}
	m.GetAttachments()[0].Header.Set("Content-Disposition", mime.FormatMediaType("attachment", name))
	m.GetAttachments()[0].Header.Set("Content-Type", mime.FormatMediaType("application/pdf", map[string]string{"name": l.File}))
	return m, nil
}

// checkAddress returns an error unless the address is a plain one and its name is read
// back as it was written, whatever it contains.
func checkAddress(a mail.Address) error {
	if plain, doubt := ParseAddress(a.Address); doubt != nil || plain != a.Address {
		return fmt.Errorf("%q is no plain address", a.Address)
	}
	again, err := mail.ParseAddress(a.String())
	if err == nil && *again != a {
		err = fmt.Errorf("%q would be read as %q", a.String(), again.String())
	}
	return err
}
