package people

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// TestNoSlipOverlooked: the quick look at the letters never leaves out a pair of
// names that the comparison letter by letter finds.
func TestNoSlipOverlooked(t *testing.T) {
	words := strings.Fields("ida marsh calloway jo wren theodora ελένη παπαδάκη анна ковалёва 李 小龙 o'neill ann-marie 7b van der berg")
	letters := []rune("abcdefghijklmnopqrstuvwxyzéüßαβγδабвг李 '-7")
	rng := rand.New(rand.NewPCG(3, 5))
	found := 0
	for range 20_000 {
		var name []string
		for range 1 + rng.IntN(4) {
			name = append(name, words[rng.IntN(len(words))])
		}
		other := slices.Clone(name)
		switch rng.IntN(4) {
		case 0:
			rng.Shuffle(len(other), func(i, j int) { other[i], other[j] = other[j], other[i] })
		case 1:
			other = slices.Delete(other, 0, 1)
		}
		b := []rune(strings.Join(other, " "))
		for range rng.IntN(4) {
			letter, at := letters[rng.IntN(len(letters))], rng.IntN(len(b)+1)
			switch {
			case rng.IntN(2) == 0:
				b = slices.Insert(b, at, letter)
			case at < len(b) && rng.IntN(2) == 0:
				b[at] = letter
			case at < len(b):
				b = slices.Delete(b, at, at+1)
			}
		}
		one, two := strings.Join(name, " "), string(b)
		if !nearlySame(one, two) {
			continue
		}
		found++
		if !lettersOf(one).near(lettersOf(two)) {
			t.Fatalf("%q and %q were overlooked", one, two)
		}
	}
	if found < 5000 {
		t.Errorf("only %d pairs were nearly the same", found)
	}
	if lettersOf("ida marsh").near(lettersOf("theodora wren")) {
		t.Error("names with nothing in common are compared letter by letter")
	}
}
