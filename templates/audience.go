package templates

import (
	"fmt"
	"slices"
	"strings"
)

// Audience is who reads a page. On an audience's pages a block such as "squad/title"
// replaces the block "title".
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

// For returns the same words for an audience.
func (s *Set) For(a Audience) *Set {
	put := *s
	put.audience, put.own = a, s.owns[a]
	return &put
}

// Key returns the name of the block that is said for key: the audience's, or its own.
func (s *Set) Key(key string) string {
	if s.own[key] != nil {
		return string(s.audience) + "/" + key
	}
	return key
}

// commonKey splits the key of an audience's block; ok is false for a common block.
func commonKey(key string) (audience Audience, common string, ok bool) {
	before, common, found := strings.Cut(key, "/")
	return Audience(before), common, found && slices.Contains(Audiences(), Audience(before))
}
