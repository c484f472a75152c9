package kit

import (
	"fmt"
	"strings"
)

// Paper is a paper size. The zero Paper is A4.
type Paper uint8

// The paper sizes.
const (
	A4 Paper = iota
	Letter
)

// ParsePaper parses "a4" or "letter", in any case.
func ParsePaper(name string) (Paper, error) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "a4":
		return A4, nil
	case "letter":
		return Letter, nil
	}
	return A4, fmt.Errorf("paper %q is not known; write a4 or letter", name)
}

func (p Paper) String() string {
	if p == Letter {
		return "letter"
	}
	return "a4"
}

// Size returns the width and height in points.
func (p Paper) Size() (width, height float64) {
	if p == Letter {
		return 612, 792
	}
	return 595.28, 841.89
}
