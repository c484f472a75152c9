// Package filename derives file names from people's names: valid on Windows, macOS
// and Linux, unique in a folder, the same in every run.
package filename

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// maxBytes keeps a name and its ending well below the 255 bytes of file systems
// and the limits of mail programs.
const maxBytes = 100

// reserved are device names on Windows, with any ending.
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|(com|lpt)[0-9])$`)

// Clean returns text as a file name without ending: letters, digits, single
// spaces, hyphens and underscores. It may be empty.
func Clean(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFC.String(strings.ToValidUTF8(text, " ")) {
		if !isNameRune(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		if b.Len()+len(string(r)) > maxBytes {
			break
		}
		b.WriteRune(r)
	}
	// Shell tools read a leading hyphen as an option.
	name := norm.NFC.String(strings.TrimRight(strings.TrimLeft(b.String(), "- "), " "))
	if reserved.MatchString(name) {
		name += " page"
	}
	return name
}

// isNameRune reports whether r may be in a name. Combining marks may, such as
// vowels in Indian scripts.
func isNameRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.In(r, unicode.Mn, unicode.Mc) || r == '-' || r == '_'
}

// IsPlain reports whether a name denotes a file in the folder itself on any
// system: no path, no drive, not the folder.
func IsPlain(name string) bool {
	return name != "" && name != "." && name != ".." && !strings.ContainsAny(name, "/\\:\x00")
}

// Set hands out names that differ in more than case. The zero Set is ready to
// use.
type Set struct {
	taken  map[string]bool
	number map[string]int // last used, by name
}

// Unique returns the first candidate that is not empty after Clean and not taken,
// else the last one with a number. The ending is such as ".pdf".
func (s *Set) Unique(ending string, candidates ...string) string {
	if s.taken == nil {
		s.taken, s.number = map[string]bool{}, map[string]int{}
	}
	base := "person"
	for _, c := range candidates {
		name := Clean(c)
		if name == "" {
			continue
		}
		base = name
		if s.take(name) {
			return name + ending
		}
	}
	for {
		s.number[base]++
		if name := fmt.Sprintf("%s %d", base, s.number[base]); s.take(name) {
			return name + ending
		}
	}
}

func (s *Set) take(name string) bool {
	key := strings.ToLower(norm.NFKC.String(name))
	if s.taken[key] {
		return false
	}
	s.taken[key] = true
	return true
}
