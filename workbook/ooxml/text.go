package ooxml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// richText collects the text of a string item: its t elements, those inside
// runs included, without phonetic hints.
type richText struct {
	text     []byte
	phonetic bool
}

func (r *richText) visit(e *element, before []byte) {
	switch {
	case e.name == "rPh":
		r.phonetic = !e.end
	case e.name == "t" && e.end && !r.phonetic:
		r.text = append(r.text, before...)
	}
}

func (r *richText) take() string {
	s := string(r.text)
	r.text, r.phonetic = r.text[:0], false
	return s
}

// Unescape turns _x000D_ and its like into the characters they stand for.
func Unescape(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '_' && LooksEscaped(s[i+1:]) {
			n, _ := strconv.ParseUint(s[i+2:i+6], 16, 16) // LooksEscaped has checked the digits
			b = append(b, string(rune(n))...)
			i += 6
			continue
		}
		b = append(b, s[i])
	}
	return string(b)
}

// LooksEscaped reports whether s, which follows an underscore, goes on xHHHH_.
func LooksEscaped(s string) bool {
	return len(s) >= 6 && s[0] == 'x' && s[5] == '_' && strings.Trim(s[1:5], "0123456789abcdefABCDEF") == ""
}

// AppendText appends s escaped for XML 1.0 and for spreadsheet strings, in which
// _xHHHH_ means a character. Carriage returns become references, because XML turns
// plain ones into line feeds.
func AppendText(b []byte, s string) []byte {
	for i := 0; i < len(s); {
		c := s[i]
		if c >= utf8.RuneSelf {
			r, n := utf8.DecodeRuneInString(s[i:])
			if r == 0xFFFE || r == 0xFFFF {
				r = utf8.RuneError
			}
			b = utf8.AppendRune(b, r)
			i += n
			continue
		}
		i++
		switch {
		case c == '&':
			b = append(b, "&amp;"...)
		case c == '<':
			b = append(b, "&lt;"...)
		case c == '>':
			b = append(b, "&gt;"...)
		case c == '\r':
			b = append(b, "&#13;"...)
		case c < 0x20 && c != '\t' && c != '\n':
			b = utf8.AppendRune(b, utf8.RuneError)
		case c == '_' && LooksEscaped(s[i:]):
			b = append(b, "_x005F_"...)
		default:
			b = append(b, c)
		}
	}
	return b
}
