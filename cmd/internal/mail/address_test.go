package mail

import (
	"net/mail"
	"strings"
	"testing"
)

func TestParseAddress(t *testing.T) {
	for text, want := range map[string]string{
		"ida@river.example":               "ida@river.example",
		" Ida.Calloway+pe@River.EXAMPLE ": "Ida.Calloway+pe@river.example",
		"o'brien_7@mail.river.example":    "o'brien_7@mail.river.example",
		"wren@müller.example":             "wren@xn--mller-kva.example",
	} {
		got, doubt := ParseAddress(text)
		if doubt != nil || got != want {
			t.Errorf("%q: %q, %v, want %q", text, got, doubt, want)
		}
		if _, err := mail.ParseAddress(got); err != nil {
			t.Errorf("%q: %v", got, err)
		}
	}
}

// Each refusal names its reason.
func TestParseAddressRefuses(t *testing.T) {
	long := strings.Repeat("a", 65)
	for text, want := range map[string]string{
		"ida":                                   "no @",
		"ida@river":                             "after the @",
		"ida@10.0.0.1":                          "after the @",
		"ida@[10.0.0.1]":                        "brackets",
		"ida@river.example\r\nBcc: x@y.example": "more than one",
		"ida@river.example\nBcc:x":              "line break",
		"ida @river.example":                    "space",
		"Ida Calloway <ida@river.example>":      "brackets",
		`"ida"@river.example`:                   "quotation",
		"ida@river.example, ben@ohm.example":    "more than one",
		"ida,ben@river.example":                 "comma",
		"ida@a.example@b.example":               "more than one",
		"ida%ohm.example@river.example":         "'%'",
		"ohm.example!ida@river.example":         "'!'",
		"|sh@river.example":                     "'|'",
		".ida@river.example":                    "before the @",
		"ida.@river.example":                    "before the @",
		"ida..x@river.example":                  "before the @",
		"-f@river.example":                      "before the @",
		"@river.example":                        "before the @",
		long + "@river.example":                 "before the @",
		"ida@":                                  "after the @",
		"ida@-river.example":                    "after the @",
		"ida@river..example":                    "after the @",
		"ida@river.example.":                    "after the @",
		"ida@riv\u200ber.ex\u202eample":         "after the @",
		"idä@river.example":                     "'ä'",
		"ida\u200b@river.example":               "not every mail server",
		"mailto:ida@river.example":              "link",
		"":                                      "no @",
	} {
		got, doubt := ParseAddress(text)
		if doubt == nil {
			t.Errorf("%q was taken as %q", text, got)
		} else if !strings.Contains(doubt.What.String(), want) || doubt.Fix.IsZero() {
			t.Errorf("%q: %v, want %q", text, doubt, want)
		}
	}
}

func TestCheckName(t *testing.T) {
	for name, ok := range map[string]bool{
		"Ida Calloway":             true,
		`=HYPERLINK("x")`:          true,
		"שרה \u200fכהן":            true,
		"head@school.example":      false,
		"Head <head>":              false,
		"Ida\r\nBcc: x":            false,
		"Ida \u202eyawollaC":       false,
		"Ida \u2066Calloway\u2069": false,
	} {
		if got := CheckName(name); (got == nil) != ok {
			t.Errorf("%q: %v", name, got)
		}
	}
}

// FuzzParseAddress: an accepted address is one address to the standard library too,
// and cannot end a line or begin a header.
func FuzzParseAddress(f *testing.F) {
	f.Add("ida@river.example")
	f.Add("a@b.example\r\nBcc: c@d.example")
	f.Fuzz(func(t *testing.T, text string) {
		got, doubt := ParseAddress(text)
		if doubt != nil {
			return
		}
		parsed, err := mail.ParseAddress(got)
		if err != nil || parsed.Address != got || parsed.Name != "" || strings.ContainsAny(got, "\r\n\x00 <>,;") || strings.Count(got, "@") != 1 {
			t.Errorf("%q was taken as %q: %v, %v", text, got, parsed, err)
		}
		if again, doubt := ParseAddress(got); doubt != nil || again != got {
			t.Errorf("%q read again is %q, %v", got, again, doubt)
		}
	})
}
