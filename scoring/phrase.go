package scoring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tenback/scoring/reference"
)

// Phrase is a sentence, or a part of one, that is said of a score or a roster. It is
// declared once, in English; other languages have it under its ID.
type Phrase struct {
	ID      string
	English string   // with slots such as {Input}
	Slots   []string // in the order in which they stand
}

// phraseSlots bounds the slots of a phrase, so that one said is comparable.
const phraseSlots = 4

// Phrasebook declares the phrases of one package.
type Phrasebook struct{ prefix string }

// declared holds every phrase by its ID. Packages add theirs while they start, in
// one goroutine.
var (
	declared     []*Phrase
	declaredByID = map[string]bool{}
)

// NewPhrasebook returns a book whose phrases have IDs that begin with prefix.
func NewPhrasebook(prefix string) Phrasebook { return Phrasebook{prefix} }

// Phrase declares a phrase. Faults panic at start.
func (b Phrasebook) Phrase(id, english string) *Phrase {
	p := &Phrase{ID: b.prefix + id, English: english}
	for _, piece := range strings.Split(english, "{")[1:] {
		slot, _, closed := strings.Cut(piece, "}")
		if !closed || slot == "" {
			panic(fmt.Sprintf("scoring: phrase %s: a slot is not closed", p.ID))
		}
		if !slices.Contains(p.Slots, slot) {
			p.Slots = append(p.Slots, slot)
		}
	}
	if len(p.Slots) > phraseSlots || declaredByID[p.ID] {
		panic(fmt.Sprintf("scoring: phrase %s: too many slots, or declared twice", p.ID))
	}
	declared, declaredByID[p.ID] = append(declared, p), true
	return p
}

// Say declares a phrase without slots.
func (b Phrasebook) Say(id, english string) Said { return b.Phrase(id, english).With() }

// Phrases lists every phrase of every package in the program, in the order of
// declaration.
func Phrases() []*Phrase { return declared }

func phrase(id, english string) *Phrase { return NewPhrasebook("").Phrase(id, english) }

// With fills the slots, in their order, by a [Quantity], [Unit], [Input], *Test,
// [Header], [reference.Ages], [Number], int, day ([time.Time]), duration (shown as
// on a clock), [Quoted] words, another [Said], or a text of every language.
func (p *Phrase) With(slots ...any) Said {
	if len(slots) != len(p.Slots) {
		panic(fmt.Sprintf("scoring: phrase %s takes %d slots, not %d", p.ID, len(p.Slots), len(slots)))
	}
	s := Said{phrase: p}
	copy(s.slots[:], slots)
	return s
}

// Number is an amount without a unit, shown with so many decimals.
type Number struct {
	Amount   float64
	Decimals int
}

func (n Number) String() string { return strconv.FormatFloat(n.Amount, 'f', n.Decimals, 64) }

// Exactly is a number with as many decimals as show all of it.
func Exactly(x float64) Number {
	_, after, _ := strings.Cut(strconv.FormatFloat(x, 'f', -1, 64), ".")
	return Number{x, len(after)}
}

// Quoted is words of a sheet, shown in the language's quotation marks.
type Quoted string

func (q Quoted) String() string { return strconv.Quote(string(q)) }

// Header is the header of the column that a test's own values go into.
type Header struct {
	Test  *Test
	Input Input
}

func (h Header) String() string {
	for _, r := range h.Test.Results {
		if r.Input == h.Input {
			return r.Column
		}
	}
	return h.Input.Info().Name
}

// Trimmed is a number with the fewest decimals that show it, two at most.
func Trimmed(x float64) Number {
	_, after, _ := strings.Cut(trimNumber(x, 2), ".")
	return Number{x, len(after)}
}

// Said is a phrase with its slots filled. The zero Said says nothing.
type Said struct {
	phrase *Phrase          // nil for a text that stands as it is, the first slot
	slots  [phraseSlots]any // comparable values only
}

// Verbatim says the same text in every language.
func Verbatim(text string) Said {
	if text == "" {
		return Said{}
	}
	return Said{slots: [phraseSlots]any{text}}
}

// IsZero reports whether nothing is said.
func (s Said) IsZero() bool { return s == Said{} }

// Phrase returns the phrase and what fills it; nil for a verbatim text.
func (s Said) Phrase() (p *Phrase, slots []any) {
	if s.phrase == nil {
		return nil, nil
	}
	return s.phrase, s.slots[:len(s.phrase.Slots)]
}

// String says it in English.
func (s Said) String() string {
	switch {
	case s.IsZero():
		return ""
	case s.phrase == nil:
		return plainSlot(s.slots[0])
	}
	text := s.phrase.English
	for i, slot := range s.phrase.Slots {
		text = strings.ReplaceAll(text, "{"+slot+"}", plainSlot(s.slots[i]))
	}
	return text
}

func plainSlot(slot any) string {
	switch v := slot.(type) {
	case Input:
		return v.Info().Name
	case *Test:
		return v.Name
	case reference.Ages:
		return v.String()
	case time.Time:
		return v.Format("2 January 2006")
	case time.Duration:
		return Clock(v)
	}
	return fmt.Sprint(slot)
}

// slug makes an ID of a sentence.
func slug(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '.'
	})
	return strings.Trim(strings.Join(words, "-"), ".")
}
