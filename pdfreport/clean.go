package pdfreport

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// cleaner makes texts from a sheet fit to draw and remembers what had to be
// replaced.
type cleaner struct {
	fonts    *fontSet
	replaced []rune
}

// text joins letters with their accents (NFC), turns every kind of line break
// and tab into a space, strips what can't be seen (control, zero-width and
// direction characters), and puts a mark where no font has the character.
func (c *cleaner) text(s string) string {
	var b strings.Builder
	pendingSpace := false
	for _, r := range norm.NFC.String(s) {
		switch {
		case r == noBreakSpace || r == noBreakThinSpace || unicode.IsSpace(r):
			pendingSpace = b.Len() > 0
			continue
		case isInvisible(r):
			continue
		case !c.fonts.has(r):
			if !slices.Contains(c.replaced, r) {
				c.replaced = append(c.replaced, r)
			}
			r = missingMark
		}
		if pendingSpace {
			b.WriteByte(' ')
			pendingSpace = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// isInvisible tells control and format characters, and the variation
// selectors that follow emoji.
func isInvisible(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Variation_Selector)
}
