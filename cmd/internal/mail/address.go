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

// localSigns are the signs allowed before the @ besides letters and digits.
// Those of RFC 5322 that old servers take for a route or a command are left out.
const localSigns = ".+-_'&=~#$*?^{}"

// ParseAddress reads a cell that holds an e-mail address. It gives the address with a
// domain in small ASCII letters, as servers use it.
func ParseAddress(text string) (address string, doubt *cell.Doubt) {
	refuse := func(fix, what string, args ...any) (string, *cell.Doubt) {
		return "", &cell.Doubt{What: scoring.Verbatim(fmt.Sprintf(what, args...)), Fix: scoring.Verbatim(fix)}
	}
	const plain = "type one plain address, such as ida@river.example"
	text = strings.TrimSpace(text)
	switch {
	case strings.HasPrefix(strings.ToLower(text), "mailto:"):
		return refuse("type the address without mailto:", "this is a link and not an address")
	case strings.Count(text, "@") > 1:
		return refuse("leave one address in the cell", "there is more than one address, or more than one @")
	case strings.ContainsAny(text, ",;"):
		return refuse("leave one address in the cell", "there is a comma or semicolon, as between two addresses")
	case strings.ContainsAny(text, `<>()[]"\`):
		return refuse(plain, "there is more than an address: a name, brackets or quotation marks")
	case strings.ContainsFunc(text, func(r rune) bool { return r <= ' ' || r == 0x7f }):
		return refuse(plain, "there is a space or a line break inside")
	}
	local, domain, found := strings.Cut(text, "@")
	if !found {
		return refuse(plain, "there is no @ in it")
	}
	for _, r := range local {
		switch {
		case r > 0x7f:
			return refuse("ask for an address in plain letters", "the letter %q before the @ is one that not every mail server takes", r)
		case !isLetterOrDigit(r) && !strings.ContainsRune(localSigns, r):
			return refuse(plain, "the sign %q before the @ is not allowed here", r)
		}
	}
	if local == "" || len(local) > maxLocal || local[0] == '.' || local[len(local)-1] == '.' || strings.Contains(local, "..") || local[0] == '-' {
		return refuse(plain, "what stands before the @ is no name of a mailbox")
	}
	domain, err := idna.Lookup.ToASCII(domain)
	if again, twice := idna.Lookup.ToASCII(domain); twice != nil || again != domain {
		err = errors.Join(twice, errors.New("the name does not stand for itself")) // as one made of broken letters
	}
	if err != nil || !isDomain(domain) || len(local)+1+len(domain) > maxWhole {
		return refuse(plain, "what stands behind the @ is no name of a mail server")
	}
	return local + "@" + domain, nil
}

// isDomain tells whether a name in ASCII can be that of a mail server out
// there: labels with dots between, the last of them no number.
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

// CheckName tells why a person's name must not stand beside an address in a
// letter's head; nil if it may. A mail program that shows only names would
// show such a one in place of the real recipient.
func CheckName(name string) *cell.Doubt {
	switch {
	case strings.ContainsAny(name, "@<>"):
		return &cell.Doubt{What: scoring.Verbatim("the name holds what looks like an address, and a mail program might show that as the recipient"), Fix: scoring.Verbatim("type the name alone")}
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return &cell.Doubt{What: scoring.Verbatim("the name holds a line break or another sign that cannot be seen"), Fix: scoring.Verbatim("type the name again")}
	case strings.ContainsFunc(name, turnsText):
		return &cell.Doubt{What: scoring.Verbatim("the name holds a sign that turns the direction of writing, by which one name can be made to look like another"), Fix: scoring.Verbatim("type the name again")}
	}
	return nil
}

// turnsText tells the signs that force a direction of writing (Unicode
// Standard Annex 9). Those that only mark it, as in Hebrew names, are not
// among them.
func turnsText(r rune) bool {
	return 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069
}
