package mail

import (
	"errors"
	"fmt"
	"strings"

	"golang.org/x/net/idna"

	"tenback/scoring"
	"tenback/workbook/cell"
)

// The longest parts of an address, in bytes (RFC 5321, 4.5.3.1).
const (
	maxLocal  = 64
	maxDomain = 255
	maxWhole  = 254
)

// localSigns are the characters allowed before the @ besides letters and digits.
// Those of RFC 5322 that old servers read as a route or a command are left out.
const localSigns = ".+-_'&=~#$*?^{}"

// ParseAddress parses a cell that holds one plain e-mail address. It refuses what
// a mail program or a server might read differently. The domain is returned in
// lower-case ASCII.
func ParseAddress(text string) (address string, doubt *cell.Doubt) {
	refuse := func(fix, what string, args ...any) (string, *cell.Doubt) {
		return "", &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf(what, args...)), Fix: scoring.Verbatim(fix)}
	}
	const plain = "type one plain address, such as ida@river.example"
	text = strings.TrimSpace(text)
	switch {
	case strings.HasPrefix(strings.ToLower(text), "mailto:"):
		return refuse("type the address without mailto:", "this is a link, not an address")
	case strings.Count(text, "@") > 1:
		return refuse("leave one address in the cell", "there is more than one address, or more than one @")
	case strings.ContainsAny(text, ",;"):
		return refuse("leave one address in the cell", "there is a comma or semicolon, as between two addresses")
	case strings.ContainsAny(text, `<>()[]"\`):
		return refuse(plain, "there is more than an address: a name, brackets or quotation marks")
	case strings.ContainsFunc(text, func(r rune) bool { return r <= ' ' || r == 0x7f }):
		return refuse(plain, "there is a space or a line break in it")
	}
	local, domain, found := strings.Cut(text, "@")
	if !found {
		return refuse(plain, "there is no @ in it")
	}
	for _, r := range local {
		switch {
		case r > 0x7f:
			return refuse("ask for an address in plain letters", "not every mail server accepts the letter %q before the @", r)
		case !isLetterOrDigit(r) && !strings.ContainsRune(localSigns, r):
			return refuse(plain, "the character %q is not allowed before the @", r)
		}
	}
	if local == "" || len(local) > maxLocal || local[0] == '.' || local[len(local)-1] == '.' || strings.Contains(local, "..") || local[0] == '-' {
		return refuse(plain, "the part before the @ is not a mailbox name")
	}
	domain, err := idna.Lookup.ToASCII(domain)
	if again, twice := idna.Lookup.ToASCII(domain); twice != nil || again != domain {
		err = errors.Join(twice, errors.New("the name has two readings")) // as invalid punycode has
	}
	if err != nil || !isDomain(domain) || len(local)+1+len(domain) > maxWhole {
		return refuse(plain, "the part after the @ is not the name of a mail server")
	}
	return local + "@" + domain, nil
}

// isDomain reports whether an ASCII name can be that of a public mail server:
// labels separated by dots, the last one not a number.
func isDomain(domain string) bool {
	labels := strings.Split(domain, ".")
	if len(domain) > maxDomain || len(labels) < 2 {
		return false
	}
	for _, l := range labels {
		if l == "" || len(l) > 63 || l[0] == '-' || l[len(l)-1] == '-' ||
			strings.ContainsFunc(l, func(r rune) bool { return !isLetterOrDigit(r) && r != '-' }) {
			return false
		}
	}
	last := labels[len(labels)-1]
	return len(last) > 1 && strings.Trim(last, "0123456789") != ""
}

func isLetterOrDigit(r rune) bool {
	return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9'
}

// CheckName returns why a person's name must not be in a mail header; nil if it
// may. A mail program that shows only names could show it as the recipient.
func CheckName(name string) *cell.Doubt {
	switch {
	case strings.ContainsAny(name, "@<>"):
		return &cell.Doubt{What: scoring.Verbatim("the name contains what looks like an address, and a mail program might show it as the recipient"), Fix: scoring.Verbatim("type the name alone")}
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return &cell.Doubt{What: scoring.Verbatim("the name contains a line break or another invisible character"), Fix: scoring.Verbatim("type the name again")}
	case strings.ContainsFunc(name, turnsText):
		return &cell.Doubt{What: scoring.Verbatim("the name contains a character that reverses the writing direction and can make it look like another name"), Fix: scoring.Verbatim("type the name again")}
	}
	return nil
}

// turnsText reports whether r forces a writing direction (Unicode Standard Annex
// 9). Marks, as in Hebrew names, do not.
func turnsText(r rune) bool {
	return 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069
}
