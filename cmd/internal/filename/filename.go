// Package filename makes file names out of what people are called: safe on
// Windows, macOS and Linux, unique in a folder, the same from run to run.
package filename

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// maxBytes keeps a name, with its ending, well under the 255 bytes that file
// systems allow, and under what a mail program may cut.
const maxBytes = 100

// reserved are the names that Windows keeps for devices, whatever the ending.
var reserved = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true,
	"com0": true, "com1": true, "com2": true, "com3": true, "com4": true, "com5": true, "com6": true, "com7": true, "com8": true, "com9": true,
	"lpt0": true, "lpt1": true, "lpt2": true, "lpt3": true, "lpt4": true, "lpt5": true, "lpt6": true, "lpt7": true, "lpt8": true, "lpt9": true}

// Clean turns text into a file name without ending: letters, digits, single
// spaces, hyphens and underscores. What is left may be empty.
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
	// A leading hyphen would read as an option to a shell tool.
	name := norm.NFC.String(strings.TrimRight(strings.TrimLeft(b.String(), "- "), " "))
	if reserved[strings.ToLower(name)] {
		name += " page"
	}
	return name
}

// isNameRune tells what may stand in a name: among others the marks that are a
// part of letters, as vowels are in Indian scripts.
func isNameRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.In(r, unicode.Mn, unicode.Mc) || r == '-' || r == '_'
}

// IsPlain tells that a name is that of a file in the folder where it is looked
// for and nowhere else, on any system: no path, no drive, not the folder itself.
func IsPlain(name string) bool {
	return name != "" && name != "." && name != ".." && !strings.ContainsAny(name, "/\\:\x00")
}

// Set hands out names that differ even where a file system ignores case.
// The zero Set is ready.
type Set struct {
	taken  map[string]bool
	number map[string]int // the last one that a name got
}

// Unique returns the first candidate that is not yet taken and cleans to
// something, else the last one with a number; ending is such as ".pdf".
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
