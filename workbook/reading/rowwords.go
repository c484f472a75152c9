package reading

import (
	"iter"
	"maps"
	"slices"
	"strings"
	"unicode"

	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// summaryWords are words in rows that sum up others, by heading.Key.
var summaryWords = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields("average averages mean median total totals subtotal sum sd stdev count overall " +
		"durchschnitt mittelwert schnitt gesamt summe anzahl moyenne total médiane somme media promedio mediana suma média soma totale somma " +
		"gemiddelde totaal medel medelvärde summa średnia suma razem среднее средний итого всего 平均 平均值 合计 合計 总计 평균 합계 rata-rata jumlah ortalama toplam") {
		all[heading.Key(w)] = true
	}
	for _, w := range []string{"class average", "group average", "grand total", "std dev", "standard deviation", "classaverage", "average class"} {
		all[heading.Key(w)] = true
	}
	return all
}()

// starts holds the first two letters of known words, in lower case. Most texts of
// a roster can be excluded by them at once.
type starts map[[2]byte]bool

func startsOf(words iter.Seq[string]) starts {
	all := starts{}
	for w := range words {
		all[[2]byte{w[0], w[1]}] = true
	}
	return all
}

// ruleOut reports whether a text begins with two ASCII letters that begin no
// known word.
func (s starts) ruleOut(text string) bool {
	if len(text) < 2 {
		return false
	}
	start := [2]byte{text[0] | 0x20, text[1] | 0x20}
	return isLetter(start[0]) && isLetter(start[1]) && !s[start]
}

// isLetter reports whether c is a lower-case ASCII letter.
func isLetter(c byte) bool { return 'a' <= c && c <= 'z' }

var summaryStarts = startsOf(maps.Keys(summaryWords))

func isSummary(s string) bool {
	return len(s) < 40 && !summaryStarts.ruleOut(s) && summaryWords[heading.Key(s)]
}

// exampleWords begin a row that is an example, folded.
//
//nolint:misspell // one of them is French
var exampleWords = []string{"exemple", "example", "sample", "e.g.", "eg", "beispiel", "bsp", "z.b.", "ejemplo", "esempio", "exemplo", "voorbeeld", "exempel",
	"eksempel", "przyklad", "пример", "приклад", "esimerkki", "priklad", "pelda", "ornek", "例", "记入例", "記入例", "예", "예시", "contoh"}

var exampleStarts = startsOf(slices.Values(exampleWords))

// isExample reports whether a name is that of an example: the word alone, or with
// a colon or parentheses.
func isExample(name string) bool {
	if exampleStarts.ruleOut(name) {
		return false
	}
	s := cell.Fold(name)
	return slices.ContainsFunc(exampleWords, func(w string) bool {
		rest, ok := strings.CutPrefix(strings.TrimLeft(s, "( "), w)
		return ok && (rest == "" || strings.ContainsAny(rest[:1], ":)") || strings.HasPrefix(strings.TrimLeft(rest, ". "), ":"))
	})
}

// isNote reports whether a text alone in its row is a remark rather than a name.
func isNote(s string, afterGap bool) bool {
	fields := strings.Fields(s)
	words := len(fields)
	if headsGroup(fields) {
		return true
	}
	return strings.ContainsAny(s, ":=?!") || strings.HasPrefix(s, "*") || words > 6 ||
		words > 3 && strings.HasSuffix(s, ".") || afterGap && words > 4 ||
		!cell.HasLetters(s)
}

// headsGroup reports whether words alone in a row are the heading of a group,
// such as "Class 7a", "Team B" or "7a".
func headsGroup(words []string) bool {
	if len(words) == 0 || len(words) > 3 {
		return false
	}
	last := []rune(words[len(words)-1])
	counted := len(last) <= 3 && (unicode.IsDigit(last[0]) || len(last) == 1)
	if len(words) == 1 {
		return counted && unicode.IsDigit(last[0])
	}
	m, ok := heading.Match(words[0])
	return counted && ok && m.Role == roster.Group
}
