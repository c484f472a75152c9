package kit

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Bounds of a text from a sheet. No place on a page holds more.
const (
	runesMost = 600
	bytesMost = 16 * runesMost // before any work is put into it
)

// extraPagesMost bounds the code pages in a document besides the core one, and so
// its size. A name and a group in two scripts need two.
const extraPagesMost = 2

// Cleaner makes texts from a sheet fit to draw and records what it replaced.
type Cleaner struct {
	extra    []uint8 // code pages in use besides the core one
	Replaced []rune
}

// Text normalises accents (NFC), turns line breaks and tabs into spaces, and
// drops invisible characters. A character that cannot be drawn becomes a mark.
func (c *Cleaner) Text(s string) string {
	var b strings.Builder
	pendingSpace := false
	kept := 0
	if len(s) > bytesMost {
		s = strings.ToValidUTF8(s[:bytesMost], "")
	}
	for _, r := range norm.NFC.String(s) {
		switch {
		case kept == runesMost:
			b.WriteRune('…')
			return b.String()
		case r == noBreakSpace || r == noBreakThinSpace || unicode.IsSpace(r):
			pendingSpace = b.Len() > 0
			continue
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Variation_Selector):
			continue // invisible
		case !c.drawable(r):
			c.note(r)
			r = missingMark
		}
		if pendingSpace {
			b.WriteByte(' ')
			pendingSpace = false
		}
		b.WriteRune(r)
		kept++
	}
	return b.String()
}

// Apart is Text with code pages of its own, for documents with names in many
// scripts.
func (c *Cleaner) Apart(s string) string {
	own := Cleaner{}
	s = own.Text(s)
	for _, r := range own.Replaced {
		c.note(r)
	}
	return s
}

func (c *Cleaner) note(r rune) {
	if !slices.Contains(c.Replaced, r) {
		c.Replaced = append(c.Replaced, r)
	}
}

// Unmarked returns a text from a sheet without marks of bold.
func Unmarked(s string) string { return strings.ReplaceAll(s, "**", "*") }

// drawable reports whether a code page that the document can take has r.
func (c *Cleaner) drawable(r rune) bool {
	g, ok := fonts().glyphs[r]
	if !ok || g.page == 0 || slices.Contains(c.extra, g.page) {
		return ok
	}
	if len(c.extra) == extraPagesMost {
		return false
	}
	c.extra = append(c.extra, g.page)
	return true
}
