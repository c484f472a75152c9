package kit

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// runesMost bounds a text from a sheet; what is longer is cut, for no place on
// the page holds more.
const runesMost = 600

// extraPagesMost bounds the code pages beyond the core one in a document, and
// with them its size. A name and a group in two scripts need two.
const extraPagesMost = 2

// Cleaner makes texts from a sheet fit to draw and remembers what had to be
// replaced.
type Cleaner struct {
	extra    []uint8 // code pages in use besides the core one
	Replaced []rune
}

// Text joins letters with their accents (NFC), turns every kind of line break
// and tab into a space, strips what can't be seen (control, zero-width and
// direction characters), and puts a mark for a character that can't be drawn.
func (c *Cleaner) Text(s string) string {
	var b strings.Builder
	pendingSpace := false
	kept := 0
	for _, r := range norm.NFC.String(clip(s)) {
		switch {
		case kept == runesMost:
			b.WriteRune('…')
			return b.String()
		case r == noBreakSpace || r == noBreakThinSpace || unicode.IsSpace(r):
			pendingSpace = b.Len() > 0
			continue
		case isInvisible(r):
			continue
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

// Apart is text with a cleaner of its own, for documents that hold names in more
// scripts than one person's page.
func (c *Cleaner) Apart(s string) string {
	own := Cleaner{}
	s = own.Text(s)
	for _, r := range own.Replaced {
		c.note(r)
	}
	return s
}

// note remembers a character that had to be replaced.
func (c *Cleaner) note(r rune) {
	if !slices.Contains(c.Replaced, r) {
		c.Replaced = append(c.Replaced, r)
	}
}

// Unmarked is a text from a sheet in which nothing can be taken for a mark of bold.
func Unmarked(s string) string { return strings.ReplaceAll(s, "**", "*") }

// clip cuts a text that is far too long before any work is put into it.
func clip(s string) string {
	const bytesMost = 16 * runesMost
	if len(s) > bytesMost {
		return strings.ToValidUTF8(s[:bytesMost], "")
	}
	return s
}

// drawable tells whether a code page has the character and the document can
// take that page.
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

// isInvisible tells control and format characters, and the variation
// selectors that follow emoji.
func isInvisible(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Variation_Selector)
}
