package heading

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

//go:embed words.csv
var wordsCSV []byte

// class is a set of the classes of words.csv, and of what a piece of a header is
// besides.
type class uint64

const (
	filler class = 1 << iota
	owner
	person
	action
	count
	total
	attempt
	best
	rest
	end
	recovery
	maximum
	before
	occasion
	lab
	other
	sport
	elsePerson
	guardian
	doctor
	allowed
	idWord
	run
	walk
	jog
	step
	cycle
	treadmill
	shuttle
	inPlace
	unsupported
	numeral
	organ
	condition
	sexWord
	style
	which
	into
	uptake
	healthWord
	aside

	// What words.csv does not hold.
	number
	ordinal
	unit
	core
	testName
	unknown
)

var classNames = map[string]class{"filler": filler, "owner": owner, "person": person, "action": action, "count": count, "total": total,
	"attempt": attempt, "best": best, "rest": rest, "end": end, "recovery": recovery, "max": maximum, "before": before, "occasion": occasion,
	"lab": lab, "other": other, "sport": sport, "else": elsePerson, "guardian": guardian, "doctor": doctor, "ok": allowed, "idword": idWord,
	"run": run, "walk": walk, "jog": jog, "step": step, "cycle": cycle, "treadmill": treadmill, "shuttle": shuttle, "inplace": inPlace,
	"unsupported": unsupported, "number": numeral, "organ": organ, "condition": condition, "sexword": sexWord, "style": style, "which": which, "into": into, "uptake": uptake, "health": healthWord, "aside": aside}

// activities are the classes of what was done.
const activities = run | walk | jog | step | cycle | treadmill | shuttle | inPlace

// sense is what a word or a phrase may be.
type sense struct {
	class    class
	meanings []roster.Meaning // of a core
	test     *scoring.Test    // of a testName
	value    float64          // of a numeral
	metres   float64          // of a race with a name
}

// lexicon maps words and phrases, without blanks between their parts, to what
// they may be.
type lexicon struct {
	senses map[string]sense // by words with blanks between them
	closed map[string]sense // what names a column or a test, without the blanks
	words  int              // most tokens of a phrase
}

// compound are the classes of phrases that are also written as one word, or apart:
// bodyweight. Elsewhere "at test" would be the German Attest.
const compound = core | testName | activities | uptake

func (l *lexicon) add(text string, s sense) {
	t := tokenise(text)
	words := len(t.list)
	if strings.Trim(t.joined(0, words), "0123456789.'") == "" {
		return
	}
	key := t.spaced(0, words)
	l.senses[key] = l.senses[key].with(s)
	if s.class&compound != 0 {
		key = t.joined(0, words)
		l.closed[key] = l.closed[key].with(s)
	}
	l.words = max(l.words, words)
}

// with returns what a word may be that may also be what s says; the first meaning
// and test stay.
func (s sense) with(more sense) sense {
	s.class |= more.class
	if s.meanings == nil {
		s.meanings = more.meanings
	}
	if s.test == nil {
		s.test = more.test
	}
	s.value, s.metres = max(s.value, more.value), max(s.metres, more.metres)
	return s
}

// orStrange makes a word unknown that only says whether a header asks about health.
func (s sense) orStrange() sense {
	if s.class != 0 && s.class&^(healthWord|aside) == 0 {
		s.class |= unknown
	}
	return s
}

// find looks up some tokens.
func (l *lexicon) find(t *tokens, from, to int) (sense, bool) {
	open, ok := l.senses[t.spaced(from, to)]
	closed, also := l.closed[t.joined(from, to)]
	return open.with(closed), ok || also
}

// word looks up a word.
func (l *lexicon) word(text string) (sense, bool) {
	open, ok := l.senses[text]
	closed, also := l.closed[text]
	return open.with(closed), ok || also
}

// newLexicon returns the words of words.csv and of a vocabulary.
func newLexicon(v *vocabulary) (*lexicon, error) {
	l := &lexicon{senses: map[string]sense{}, closed: map[string]sense{}}
	records := csv.NewReader(bytes.NewReader(wordsCSV))
	records.Comment = '#'
	rows, err := records.ReadAll()
	if err != nil {
		return nil, err
	}
	for _, row := range rows[1:] {
		c, ok := classNames[row[0]]
		if !ok {
			return nil, fmt.Errorf("words.csv: there is no class %q", row[0])
		}
		for _, word := range strings.Split(row[2], ";") {
			s := sense{class: c}
			if c == numeral {
				text, value, _ := strings.Cut(word, "=")
				if s.value, err = strconv.ParseFloat(value, 64); err != nil {
					return nil, fmt.Errorf("words.csv: %w", err)
				}
				word = text
			}
			l.add(word, s)
		}
	}
	for _, s := range v.texts {
		if found := v.words[s.key]; len(found) > 0 && found[0].Test == nil && !s.whole {
			l.add(s.text, sense{class: core, meanings: found})
		}
	}
	for name, metres := range marathons {
		l.add(name, sense{class: run, metres: metres})
	}
	return l, nil
}

// addTests adds what tests and their results are called, once the parts of those
// names are known.
func (l *lexicon) addTests(v *vocabulary) {
	for _, s := range v.texts {
		if found := v.words[s.key]; len(found) > 0 && found[0].Test != nil && !s.whole {
			l.add(s.text, sense{class: core, meanings: found})
			if short := withoutParentheses(s.text); len(l.closed[Key(short)].meanings) == 0 {
				l.add(short, sense{class: core, meanings: found})
			}
		}
	}
	for _, s := range v.named {
		if s.test != Race {
			l.add(s.text, sense{class: testName, test: s.test})
		}
	}
}

// parse covers a header with the fewest pieces, and the fewest unknown ones.
func (l *lexicon) parse(header string) []piece {
	t := tokenise(header)
	n := len(t.list)
	if n > 60 {
		return nil
	}
	cost := make([]int, n+1)
	pieces := make([]piece, n)
	ends := make([]int, n)
	for i := n - 1; i >= 0; i-- {
		cost[i] = -1
		for to := min(n, i+l.words); to > i; to-- {
			p, c := l.piece(&t, i, to)
			if c > 0 && (cost[i] < 0 || c+cost[to] < cost[i]) {
				cost[i], pieces[i], ends[i] = c+cost[to], p, to
			}
		}
	}
	var all []piece
	for i := 0; i < n; i = ends[i] {
		p := pieces[i]
		p.at, p.inside, p.raw = i, t.list[i].inside, t.raw(i, ends[i])
		if parts := l.split(p); parts != nil {
			all = append(all, parts...)
			continue
		}
		all = append(all, p)
	}
	return all
}

const (
	cheap   = 10
	strange = 1000 // cost of an unknown piece
)

// piece looks up some tokens; the cost is 0 if they are no piece.
func (l *lexicon) piece(t *tokens, from, to int) (piece, int) {
	first := t.list[from]
	if s, ok := l.find(t, from, to); ok {
		p := piece{sense: s.orStrange()}
		if p.is(unknown) {
			return p, strange
		}
		if u, isUnit := cell.UnitOf(t.raw(from, to)); isUnit {
			p.class |= unit
			p.amount.Unit = u
		}
		if s.test != nil || len(s.meanings) > 0 && s.meanings[0].Test != nil {
			return p, cheap + 3 // parts that say the same are better
		}
		return p, cheap
	}
	if first.inside != t.list[to-1].inside {
		return piece{}, 0
	}
	u, ok := cell.UnitOf(t.raw(from, to))
	if !ok {
		u, ok = lengthOrTime(t.raw(from, to))
	}
	if ok && !first.number {
		return piece{sense: sense{class: unit}, amount: scoring.Quantity{Unit: u}}, cheap
	}
	if value, ok := l.number(t, from); ok {
		if to == from+1 {
			p := piece{sense: sense{class: number, value: value}}
			if first.ordinal {
				p.class = ordinal
			}
			return p, cheap
		}
		if to == from+2 && !t.list[from+1].number && t.folded[first.end:t.list[from+1].start] == "/" { // a rate, such as 24/min
			return piece{sense: sense{class: number | unit, value: value}}, cheap
		}
		if u, ok := lengthOrTime(t.raw(from+1, to)); ok && !first.ordinal {
			return piece{sense: sense{class: number | unit, value: value}, amount: scoring.Q(value, u)}, cheap
		}
		return piece{}, 0
	}
	if to > from+1 {
		return piece{}, 0
	}
	if word := strings.TrimSuffix(first.text, "s"); len(word) > 2 {
		if s, ok := l.word(word); ok { // a plural
			return piece{sense: s}, cheap + 1
		}
	}
	return piece{sense: sense{class: unknown}}, strange
}

// number returns the value of a number in digits or in words.
func (l *lexicon) number(t *tokens, at int) (float64, bool) {
	k := t.list[at]
	if !k.number {
		s, _ := l.word(k.text)
		return s.value, s.class&numeral != 0
	}
	text := k.text
	if _, decimals, _ := strings.Cut(text, "."); len(decimals) == 3 {
		text = strings.Replace(text, ".", "", 1) // 3.000 m is three thousand
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil
}

// lengthOrTime returns the unit of a word behind a number.
func lengthOrTime(word string) (scoring.Unit, bool) {
	switch word {
	case "k", "キロ":
		return scoring.Kilometres, true
	case "'":
		return scoring.Minutes, true
	case "meilen", "meile", "milla", "millas", "miglio", "miglia", "milha", "milhas", "mijl", "maili", "mailia", "мили", "миля", "mila", "mili":
		return scoring.Miles, true
	case "metros", "metri", "metrow", "metriä", "metru", "metri.", "mts", "mt":
		return scoring.Metres, true
	case "分間", "minuut", "minuta", "minuty", "minuto", "minutu", "minuuttia", "minuutin", "minuutti", "dakika", "perc", "mn", "минуты", "минуту", "minutter", "minutters":
		return scoring.Minutes, true
	}
	u, ok := cell.UnitOf(word)
	return u, ok && u != scoring.Levels && u != scoring.Laps && u != scoring.Steps && u != scoring.Years
}

// split takes an unknown word apart into known ones, as in Ruhepulsmessung or
// 安静時心拍. Latin parts have three letters or more.
func (l *lexicon) split(p piece) []piece {
	if p.class != unknown {
		return nil
	}
	word := []rune(p.raw)
	east := eastern(p.raw)
	least := 3
	if east {
		least = 1
	}
	if len(word) > 40 || len(word) < 2*least-1 {
		return nil
	}
	n := len(word)
	best := make([]int, n+1)
	next := make([]int, n+1)
	for i := n - 1; i >= 0; i-- {
		best[i] = -1
		if east {
			best[i], next[i] = 50+best[i+1], i+1
		}
		for to := n; to >= i+min(least, 2); to-- {
			s, ok := l.word(string(word[i:to]))
			if to-i < 3 && !east && (to < n || len(s.meanings) == 0 || s.meanings[0].Role != roster.ListNumber) {
				continue
			}
			if !ok || !east && s.class&^(filler|occasion|owner|style) == 0 && s.class&filler == 0 || best[to] < 0 {
				continue
			}
			if c := 1 + best[to]; best[i] < 0 || c < best[i] {
				best[i], next[i] = c, to
			}
		}
		if !east && i > 0 && best[i] < 0 && (word[i] == 's' || word[i] == 'n' || word[i] == 'e') && best[i+1] > 0 {
			best[i], next[i] = best[i+1], i+1 // a letter that links two words
		}
	}
	if best[0] < 0 {
		return nil
	}
	var parts []piece
	for i := 0; i < n; i = next[i] {
		s, ok := l.word(string(word[i:next[i]]))
		if !ok {
			if !east {
				continue
			}
			s = sense{class: unknown}
		}
		parts = append(parts, piece{sense: s.orStrange(), raw: string(word[i:next[i]]), at: p.at, inside: p.inside, part: true})
	}
	return parts
}
