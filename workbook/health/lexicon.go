package health

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"

	"tenback/scoring"
	"tenback/workbook/cell"
)

//go:embed words.csv
var wordsCSV []byte

//go:embed medicines.csv
var medicinesCSV []byte

// class is a set of the classes of words.csv and medicines.csv.
type class uint32

const (
	yes class = 1 << iota
	no
	not
	doubt
	but
	past
	during
	elsePerson
	self
	says
	joins
	aware
	terms
	filler
	agreed
	fine
	male
	asked
	safe
	safeDrug
	organ
	trouble
	dose
	short
	number
	danger
)

var classNames = map[string]class{"yes": yes, "no": no, "not": not, "doubt": doubt, "but": but, "past": past, "during": during, "else": elsePerson, "self": self,
	"says": says, "or": joins, "aware": aware, "terms": terms, "filler": filler, "ok": agreed, "fine": fine, "male": male, "asked": asked, "safe": safe, "organ": organ, "trouble": trouble, "dose": dose, "short": short}

// sense is what a word or phrase may be.
type sense struct {
	class class
	kind  scoring.Input // of a danger
}

func (s sense) is(c class) bool { return s.class&c != 0 }

// lexicon maps words and phrases to what they may be.
type lexicon struct {
	phrases map[string]sense
	stems   map[string]sense // words of any ending
	endings map[string]sense // words of any beginning
	long    map[byte][]string
	words   int // most tokens of a phrase
}

// known returns the lexicon, which is built once.
var known = sync.OnceValue(func() *lexicon {
	l := &lexicon{phrases: map[string]sense{}, stems: map[string]sense{}, endings: map[string]sense{}, long: map[byte][]string{}}
	for _, row := range records(wordsCSV) {
		s := sense{class: classNames[row[0]], kind: scoring.KnownDisease} // of an organ
		switch {
		case row[0] == "chest":
			s = sense{class: organ, kind: scoring.Symptoms}
		case s.class == 0:
			s = sense{class: danger, kind: kindOf(row[0])}
		}
		l.add(s, row[2])
	}
	for _, row := range records(medicinesCSV) {
		effects := map[string]sense{"slow": {class: danger, kind: scoring.HeartRateDrug}, "safe": {class: safeDrug}}
		l.add(effects[row[0]], row[2])
	}
	return l
})

// records returns the rows of an embedded list below its header. A fault in it is one
// of the program; every test run meets it.
func records(list []byte) [][]string {
	r := csv.NewReader(bytes.NewReader(list))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic("health: " + err.Error())
	}
	return rows[1:]
}

func kindOf(class string) scoring.Input {
	in, ok := scoring.InputByID(class)
	if !ok {
		panic(fmt.Sprintf("health: there is no class %q", class))
	}
	return in
}

// slipLength is the least length of a word that may hold one wrong letter.
const slipLength = 8

func (l *lexicon) add(s sense, words string) {
	for _, w := range strings.Split(words, ";") {
		ending, isEnding := strings.CutPrefix(w, "-")
		stem, isStem := strings.CutSuffix(w, "*")
		switch {
		case isEnding:
			l.endings[cell.Fold(strings.TrimSuffix(ending, "*"))] = s
			continue
		case isStem:
			w = cell.Fold(stem)
			l.stems[w] = s
		default:
			list := tokenise(w)
			l.words = max(l.words, len(list))
			w = joined(list)
			had, ok := l.phrases[w]
			if !ok || !had.is(danger) && s.is(danger|organ) {
				had.kind = s.kind
			}
			l.phrases[w] = sense{had.class | s.class, had.kind}
		}
		if s.is(danger) && s.kind != scoring.RecentOperation && len(w) >= slipLength && w[0] < unicode.MaxASCII && !strings.Contains(w, " ") {
			l.long[w[0]] = append(l.long[w[0]], w)
		}
	}
}

// token is a word or a number of a text, or a question mark.
type token struct {
	text       string
	soft, hard bool // a comma, or the end of a sentence, before it
}

// tokenise takes a text apart. A character of a script without blanks is a token.
func tokenise(text string) (all []token) {
	var t token
	end := func() {
		if t.text != "" {
			all = append(all, t)
			t = token{}
		}
	}
	var before rune
	text = cell.Fold(text)
	start := 0 // of t
	for i, r := range text {
		digit := unicode.IsDigit(r)
		_, width := utf8.DecodeRuneInString(text[i:])
		next, _ := utf8.DecodeRuneInString(text[i+width:])
		if t.text == "" {
			start = i
		}
		switch {
		case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul), r == '?':
			end()
			t.text = string(r)
			end()
		case unicode.IsLetter(r), digit, unicode.IsMark(r):
			if digit != unicode.IsDigit(before) && t.text != "" {
				end()
				start = i
			}
			t.text = text[start : i+width]
		case (r == '.' || r == ',') && unicode.IsDigit(before) && unicode.IsDigit(next):
			t.text = text[start : i+width]
			continue
		default:
			end()
			t.soft = t.soft || strings.ContainsRune(",()[]+|", r)
			t.hard = t.hard || strings.ContainsRune(".;!。；", r) && (i+width == len(text) || next == ' ')
		}
		before = r
	}
	end()
	return all
}

func joined(list []token) string {
	words := make([]string, len(list))
	for i, t := range list {
		words[i] = t.text
	}
	return strings.Join(words, " ")
}

// piece is a word or a phrase of a text with what it may be.
type piece struct {
	sense
	soft, hard bool
	denied     bool
}

// maxTokens bounds the work on one text.
const maxTokens = 200

// parse takes a text apart into the longest known phrases.
func (l *lexicon) parse(text string) (all []piece) {
	list := tokenise(text)
	list = list[:min(len(list), maxTokens)]
	for i := 0; i < len(list); {
		p := piece{soft: list[i].soft, hard: list[i].hard}
		n := min(l.words, len(list)-i)
		for ; n > 1; n-- {
			if s, ok := l.phrases[joined(list[i:i+n])]; ok {
				p.sense = s
				break
			}
		}
		if n == 1 {
			p.sense = l.word(list[i].text)
		}
		all = append(all, p)
		i += n
	}
	return all
}

// word looks up one word: as it is, by its beginning or ending, or with one wrong
// letter.
func (l *lexicon) word(w string) sense {
	if s, ok := l.phrases[w]; ok {
		return s.orAnswer(w)
	}
	if w == "?" {
		return sense{class: doubt}
	}
	if unicode.IsDigit([]rune(w)[0]) {
		return sense{class: number}
	}
	for n := len(w); n > 3; n-- {
		if s, ok := l.stems[w[:n]]; ok {
			return s
		}
	}
	for cut := 0; cut <= 2 && len(w)-cut > 5; cut++ {
		for n := 4; n < len(w)-cut-1; n++ {
			if s, ok := l.endings[w[len(w)-cut-n:len(w)-cut]]; ok {
				return s
			}
		}
	}
	if s := (sense{}).orAnswer(w); s.class != 0 {
		return s
	}
	if len(w) < slipLength-1 {
		return sense{}
	}
	at := slices.IndexFunc(l.long[w[0]], func(k string) bool {
		return len(k)-len(w) <= 1 && len(w)-len(k) <= 1 && levenshtein.ComputeDistance(k, w) <= 1
	})
	if at < 0 {
		return sense{}
	}
	if s, ok := l.stems[l.long[w[0]][at]]; ok {
		return s
	}
	return l.phrases[l.long[w[0]][at]]
}

// orAnswer adds what package cell knows of a word as an answer. Single letters are
// answers only as a whole cell.
func (s sense) orAnswer(w string) sense {
	if len(w) < 2 {
		return s
	}
	switch answer, doubt := cell.ParseYesNo(cell.Raw{Kind: cell.Text, Text: w}); {
	case doubt != nil || s.is(agreed):
	case answer == scoring.Yes:
		s.class |= yes
	default:
		s.class |= no
	}
	return s
}
