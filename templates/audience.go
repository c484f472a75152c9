package templates

import (
	"fmt"
	"slices"
	"strings"
)

// Audience is who reads a page. A block whose name begins with an audience and a
// slash, such as "squad/title", stands in for the block of the rest of the name
// on the pages of that audience; what is the same for all is written once.
type Audience string

// The audiences. Anyone has no words of its own.
const (
	Anyone    Audience = ""
	School    Audience = "school"    // a pupil's family, or staff and pupils of age
	Workplace Audience = "workplace" // an employee in private
	Squad     Audience = "squad"     // an athlete and the coach
)

// Audiences lists the audiences that have words of their own.
func Audiences() []Audience { return []Audience{School, Workplace, Squad} }

// ParseAudience reads an audience's name.
func ParseAudience(name string) (Audience, error) {
	a := Audience(strings.ToLower(strings.TrimSpace(name)))
	if !slices.Contains(Audiences(), a) {
		return Anyone, fmt.Errorf("%q is none of school, workplace and squad", name)
	}
	return a, nil
}

// For is the same words as they are put to an audience. It shares all but that
// with s.
func (s *Set) For(a Audience) *Set {
	put := *s
	put.audience, put.own = a, s.owns[a]
	return &put
}

// Key is the name of the block that stands in for key: its own, or that of the
// audience.
func (s *Set) Key(key string) string {
	if s.own[key] != nil {
		return string(s.audience) + "/" + key
	}
	return key
}

// commonKey is the block that a block of an audience stands in for; ok is false
// for a block of all audiences.
func commonKey(key string) (audience Audience, common string, ok bool) {
	before, common, found := strings.Cut(key, "/")
	return Audience(before), common, found && slices.Contains(Audiences(), Audience(before))
}
