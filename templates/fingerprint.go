package templates

import (
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
)

// Fingerprint returns a text that differs wherever a block, the language or the
// audience differs.
func (s *Set) Fingerprint() string { return string(s.audience) + " " + s.sum() }

// sumUp hashes all blocks.
func (s *Set) sumUp() string {
	sum := sha256.New()
	for _, key := range slices.Sorted(maps.Keys(s.blocks)) {
		text := s.blocks[key].tree.Root.String()
		fmt.Fprintf(sum, "%q %d\n%s\n", key, len(text), text)
	}
	return fmt.Sprintf("%s %x", s.lang, sum.Sum(nil))
}
