package mail

import (
	"bytes"
	"encoding/base64"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"strings"
	"testing"
	"time"
)

func sampleLetter() Letter {
	page := make([]byte, 5000)
	for i := range page {
		page[i] = byte(i * 7)
	}
	return Letter{From: &mail.Address{Name: "Quillhaven Schule, Büro", Address: "pe@quillhaven.example"},
		To: mail.Address{Name: "Zoë Łuk", Address: "zoe@river.example"}, Subject: "Für Zoë Łuk: eine Seite",
		Text: "Guten Tag,\n\nanbei die Seite für Zoë Łuk. " + strings.Repeat("Ein langer Satz ohne Umbruch. ", 20) + "\n.\nEnde",
		Lang: "de", Page: page, File: "Zoë Łuk.pdf", ID: "abc123", Date: time.Date(2026, 5, 11, 9, 0, 0, 0, time.UTC)}
}

// readLetter parses a message with the standard library, which did not write it.
func readLetter(t *testing.T, raw []byte) (head mail.Header, text string, file string, page []byte) {
	t.Helper()
	for _, line := range bytes.Split(raw, []byte("\r\n")) {
		if len(line) > 998 || bytes.ContainsAny(line, "\r\n") {
			t.Fatalf("a line of %d bytes, or a bare line end: %.60q", len(line), line)
		}
		for _, c := range line {
			if c > 0x7f {
				t.Fatalf("not in seven bits: %q", line)
			}
		}
	}
	m, err := mail.ReadMessage(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	kind, params, err := mime.ParseMediaType(m.Header.Get("Content-Type"))
	if err != nil || kind != "multipart/mixed" {
		t.Fatalf("%s, %v", kind, err)
	}
	parts := multipart.NewReader(m.Body, params["boundary"])
	first, err := parts.NextRawPart()
	if err != nil {
		t.Fatal(err)
	}
	if got := first.Header.Get("Content-Type"); got != "text/plain; charset=UTF-8" {
		t.Errorf("text is %q", got)
	}
	body, err := io.ReadAll(quotedprintable.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	second, err := parts.NextRawPart()
	if err != nil {
		t.Fatal(err)
	}
	kind, named, err := mime.ParseMediaType(second.Header.Get("Content-Type"))
	if err != nil || kind != "application/pdf" || named["name"] != second.FileName() {
		t.Errorf("attachment is %q %q, %v", kind, named, err)
	}
	page, err = io.ReadAll(base64.NewDecoder(base64.StdEncoding, second))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := parts.NextPart(); err != io.EOF {
		t.Errorf("a third part, or %v", err)
	}
	return m.Header, strings.ReplaceAll(string(body), "\r\n", "\n"), second.FileName(), page
}

func TestLetter(t *testing.T) {
	l := sampleLetter()
	raw, err := l.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	head, text, file, page := readLetter(t, raw)
	word := new(mime.WordDecoder)
	subject, err := word.DecodeHeader(head.Get("Subject"))
	if err != nil || subject != l.Subject {
		t.Errorf("subject %q, %v", subject, err)
	}
	for key, want := range map[string]*mail.Address{"From": l.From, "To": &l.To} {
		got, err := head.AddressList(key)
		if err != nil || len(got) != 1 || *got[0] != *want {
			t.Errorf("%s: %v, %v", key, got, err)
		}
	}
	if when, err := head.Date(); err != nil || !when.Equal(l.Date) {
		t.Errorf("date %v, %v", when, err)
	}
	for key, want := range map[string]string{"Message-Id": "<abc123@quillhaven.example>", "Mime-Version": "1.0", "Content-Language": "de", "X-Unsent": "", "User-Agent": "", "X-Mailer": ""} {
		if got := head.Get(key); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
	if text != l.Text || file != l.File || !bytes.Equal(page, l.Page) {
		t.Errorf("text %q, file %q, %d bytes", text, file, len(page))
	}
}

// Names of every form come back as they were typed.
func TestNames(t *testing.T) {
	for _, name := range []string{"", `Ty"Quan`, `x"`, `Bob\`, `O\Brien`, `"`, "O'Brien, Ann", "Ann; Bob", "Ann: Bob", "(Ann)", "Ann (Year 5)",
		"Zoë Łuk", "李小龙", "محمد علي", "יעל", "Ann. B.", "=?utf-8?q?Ann?=", " Ann", "Ann  Bell", strings.Repeat("Ann ", 75) + "B", strings.Repeat("é", 200)} {
		l := sampleLetter()
		l.To.Name = name
		raw, err := l.Bytes()
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		head, _, _, _ := readLetter(t, raw)
		if got, err := head.AddressList("To"); err != nil || len(got) != 1 || *got[0] != l.To {
			t.Errorf("%q came back as %v, %v, from %q", name, got, err, head.Get("To"))
		}
	}
}

func TestDraft(t *testing.T) {
	l := sampleLetter()
	l.From = nil
	raw, err := l.Draft()
	if err != nil {
		t.Fatal(err)
	}
	head, _, file, page := readLetter(t, raw)
	if head.Get("X-Unsent") != "1" || head.Get("From") != "" {
		t.Errorf("no draft: %v", head)
	}
	if file != l.File || !bytes.Equal(page, l.Page) {
		t.Errorf("file %q, %d bytes", file, len(page))
	}
	if _, err := l.Bytes(); err == nil {
		t.Error("a letter without a sender is ready to send")
	}
}

// No text of a roster or template can begin a header or add a recipient.
func TestNothingIsInjected(t *testing.T) {
	const evil = "x\r\nBcc: thief@river.example\r\n\r\nbody"
	for name, c := range map[string]struct {
		put     func(*Letter)
		refused bool
	}{
		"subject":           {func(l *Letter) { l.Subject = evil }, false},
		"file":              {func(l *Letter) { l.File = evil + ".pdf" }, false},
		"language":          {func(l *Letter) { l.Lang = evil }, false},
		"text":              {func(l *Letter) { l.Text = "x\nBcc: thief@river.example\n\nbody" }, false},
		"recipient's name":  {func(l *Letter) { l.To.Name = evil }, false},
		"sender's name":     {func(l *Letter) { l.From.Name = evil }, false},
		"recipient":         {func(l *Letter) { l.To.Address = "zoe@river.example>\r\nBcc: <thief@river.example" }, true},
		"several addresses": {func(l *Letter) { l.To.Address = "zoe@river.example, thief@river.example" }, true},
	} {
		l := sampleLetter()
		c.put(&l)
		raw, err := l.Bytes()
		if (err != nil) != c.refused {
			t.Errorf("%s: %v", name, err)
		}
		if err != nil {
			continue
		}
		head, text, _, page := readLetter(t, raw)
		to, err := head.AddressList("To")
		if head.Get("Bcc") != "" || err != nil || len(to) != 1 || to[0].Address != l.To.Address || text != l.Text || !bytes.Equal(page, l.Page) {
			t.Errorf("%s: injected: %v", name, head)
		}
	}
}
