package xmlscan

import (
	"bytes"
	"errors"
	"io"
)

// Growth is a rule by which a copy of a document may differ from the original: by new
// elements and by changes in start tags.
type Growth struct {
	// Added reports whether the element that begins at b may be new. a is at the
	// original's token in its place, which is of kind.
	Added func(a *Scanner, kind Token, b *Scanner) (bool, error)
	// Want returns the start tag that the copy must have in place of tagA, or nil
	// for tagA itself. tagB is the copy's. If want opens an empty element, its
	// content is allowed.
	Want func(level int, local string, tagA, tagB []byte) ([]byte, error)
}

// Matches reports whether b differs from a only by the rule.
func (g *Growth) Matches(a, b []byte) (bool, error) {
	sa, sb := OfBytes(a), OfBytes(b)
	ka, errA := sa.Next()
	for {
		kb, errB := sb.Next()
		if errA == io.EOF && errB == io.EOF {
			return true, nil
		}
		if errA != nil || errB != nil {
			if errA == io.EOF || errB == io.EOF {
				return false, nil
			}
			return false, errors.Join(errA, errB)
		}
		want := sa.Raw()
		if isStart(ka) && isStart(kb) && sa.Level == sb.Level && bytes.Equal(sa.Name, sb.Name) && g.Want != nil {
			tag, err := g.Want(sa.Level, LocalName(sa.Name), want, sb.Raw())
			if err != nil {
				return false, err
			}
			if tag != nil {
				want = tag
			}
		}
		if bytes.Equal(want, sb.Raw()) {
			if ka == EmptyTag {
				if err := skipElement(sb, kb); err != nil {
					return false, err
				}
			}
			ka, errA = sa.Next()
			continue
		}
		if !isStart(kb) {
			return false, nil
		}
		if ok, err := g.Added(sa, ka, sb); err != nil || !ok {
			return false, err
		}
		if err := skipElement(sb, kb); err != nil {
			return false, err
		}
	}
}

func isStart(kind Token) bool { return kind == StartTag || kind == EmptyTag }

// skipElement reads to the end of the element whose start was just read.
func skipElement(s *Scanner, kind Token) error {
	level := s.Level
	for kind != EmptyTag {
		k, err := s.Next()
		if err != nil {
			return err
		}
		if k == EndTag && s.Level == level {
			return nil
		}
	}
	return nil
}
