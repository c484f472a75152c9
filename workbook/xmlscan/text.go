package xmlscan

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"tenback/workbook/opc"
)

// AppendText appends the decoded text of a CharData token or a CDATA section, with
// a line feed for every end of a line, and nothing of other tokens. Characters that
// XML cannot hold are an error.
func (s *Scanner) AppendText(dst []byte) ([]byte, error) {
	raw := s.Raw()
	if cdata, ok := bytes.CutPrefix(raw, []byte("<![CDATA[")); ok {
		return appendLines(dst, cdata[:len(cdata)-len("]]>")])
	}
	if len(raw) > 0 && raw[0] == '<' {
		return dst, nil
	}
	if isPlain(raw) {
		return append(dst, raw...), nil
	}
	return appendDecoded(dst, raw)
}

// Value returns the decoded value of an attribute, in the same way; it may be raw
// itself.
func Value(raw []byte) ([]byte, error) {
	if isPlain(raw) {
		return raw, nil
	}
	return appendDecoded(nil, raw)
}

func appendDecoded(dst, raw []byte) ([]byte, error) {
	for {
		i := bytes.IndexByte(raw, '&')
		if i < 0 {
			return appendLines(dst, raw)
		}
		var err error
		if dst, err = appendLines(dst, raw[:i]); err != nil {
			return dst, err
		}
		r, n, err := entity(raw[i:])
		if err == nil && !inXML(r) {
			err = notInXML(r)
		}
		if err != nil {
			return dst, err
		}
		dst = utf8.AppendRune(dst, r)
		raw = raw[i+n:]
	}
}

// isPlain reports whether b needs no decoding.
func isPlain(b []byte) bool {
	for _, c := range b {
		if c >= 0x80 || c == '&' || c < ' ' && c != '\n' && c != '\t' {
			return false
		}
	}
	return true
}

func appendLines(dst, raw []byte) ([]byte, error) {
	for i := 0; i < len(raw); {
		r, n := utf8.DecodeRune(raw[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			return dst, opc.DamagedXML("the XML holds bytes that are not UTF-8")
		case !inXML(r):
			return dst, notInXML(r)
		case r == '\r':
			dst = append(dst, '\n')
			if i+1 < len(raw) && raw[i+1] == '\n' {
				n = 2
			}
		default:
			dst = append(dst, raw[i:i+n]...)
		}
		i += n
	}
	return dst, nil
}

// inXML reports whether XML 1.0 allows the character (section 2.2).
func inXML(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r >= ' ' && r <= 0xD7FF || r >= 0xE000 && r <= 0xFFFD || r >= 0x10000
}

func notInXML(r rune) error {
	return opc.DamagedXML("the XML holds the character " + strconv.QuoteRuneToASCII(r) + ", which it must not")
}

// entity decodes the entity at the beginning of b, from & to ;.
func entity(b []byte) (r rune, n int, err error) {
	n = bytes.IndexByte(b, ';') + 1
	if n == 0 || n > 13 {
		return 0, 0, opc.DamagedXML("the XML has an '&' without a ';'")
	}
	switch name := string(b[1 : n-1]); name {
	case "amp":
		r = '&'
	case "lt":
		r = '<'
	case "gt":
		r = '>'
	case "quot":
		r = '"'
	case "apos":
		r = '\''
	default:
		var ok bool
		if r, ok = charNumber(name); !ok {
			return 0, 0, opc.DamagedXML("the XML uses the unknown entity &" + Clip([]byte(name)) + ";")
		}
	}
	return r, n, nil
}

func charNumber(ent string) (rune, bool) {
	digits, ok := strings.CutPrefix(ent, "#")
	if !ok {
		return 0, false
	}
	base := 10
	if hex, ok := strings.CutPrefix(digits, "x"); ok {
		digits, base = hex, 16
	}
	n, err := strconv.ParseUint(digits, base, 32)
	return rune(n), err == nil && n <= utf8.MaxRune
}
