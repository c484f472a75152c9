package templates

import (
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
)

// Fingerprint is a text that differs for words that differ, in whatever block,
// language or audience.
func (s *Set) Fingerprint() string { return string(s.audience) + " " + s.sum() }

// sumUp takes a sum over all blocks.
func (s *Set) sumUp() string {
	sum := sha256.New()
	for _, key := range slices.Sorted(maps.Keys(s.blocks)) {
		text := s.blocks[key].tree.Root.String()
		fmt.Fprintf(sum, "%q %d\n%s\n", key, len(text), text)
	}
	return fmt.Sprintf("%s %x", s.lang, sum.Sum(nil))
}
