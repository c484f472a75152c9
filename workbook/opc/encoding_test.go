package opc

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"golang.org/x/text/encoding/unicode"
)

// TestOpenXML reads a text of several buffers in many encodings, however its bytes
// arrive.
func TestOpenXML(t *testing.T) {
	wide := func(order unicode.Endianness, mark unicode.BOMPolicy, s string) string {
		b, err := unicode.UTF16(order, mark).NewEncoder().String(s)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	body := "<a>" + strings.Repeat("é ", 9000) + "</a>"
	latin := strings.ReplaceAll(body, "é", "\xe9")
	const head = `<?xml version="1.0" encoding='utf-16' standalone="yes"?>`
	utf8 := strings.Replace(head, "utf-16", "UTF-8", 1) + body
	for name, c := range map[string]struct{ in, want string }{
		"UTF-8":                      {body, body},
		"UTF-8 with mark":            {"\xEF\xBB\xBF" + utf8, "\xEF\xBB\xBF" + utf8},
		"UTF-8 declared as UTF-16":   {head + body, utf8},
		"UTF-16":                     {wide(unicode.LittleEndian, unicode.UseBOM, head+body), utf8},
		"UTF-16, big end":            {wide(unicode.BigEndian, unicode.UseBOM, body), body},
		"UTF-16 without mark":        {wide(unicode.LittleEndian, unicode.IgnoreBOM, head+body), utf8},
		"UTF-16 big, without mark":   {wide(unicode.BigEndian, unicode.IgnoreBOM, body), body},
		"Latin-1":                    {strings.Replace(head, "utf-16", "ISO-8859-1", 1) + latin, utf8},
		"encoding outside of it":     {"<a encoding='x'>" + body + "</a>", "<a encoding='x'>" + body + "</a>"},
		"declaration without quotes": {"<?xml encoding=x?>" + body, "<?xml encoding=x?>" + body},
		"declaration without an end": {"<?xml encoding='x", "<?xml encoding='x"},
		"nothing":                    {"", ""},
	} {
		for _, pieces := range []func(io.Reader) io.Reader{iotest.OneByteReader, iotest.DataErrReader} {
			r, err := inUTF8(pieces(strings.NewReader(c.in)))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			got, err := io.ReadAll(r)
			if err != nil || string(got) != c.want {
				t.Errorf("%s: %.120q (%v), want %.120q", name, got, err, c.want)
			}
		}
	}
	boom := errors.New("boom")
	if _, err := inUTF8(iotest.ErrReader(boom)); !errors.Is(err, boom) {
		t.Errorf("an error at the beginning: %v", err)
	}
}
