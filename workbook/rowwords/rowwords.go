// Package rowwords recognises texts in rows that are about no person: totals,
// examples, notes and headings of groups.
package rowwords

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

// statistics are words in rows that sum up others, folded.
var statistics = setOf(`average averages averaged avg median total totals subtotal subtotals grandtotal stdev std deviation variance
	highest lowest fastest slowest maximum minimum overall quartile percentile headcount longest shortest
	durchschnitt klassendurchschnitt mittelwert schnitt gesamt insgesamt gesamtzahl gesamtsumme anzahl bestwert hochster niedrigster schnellster langsamster standardabweichung
	moyenne moyennes totaux mediane minimale maximale ecart effectif somme
	promedio promedios mediana maximo minimo desviacion subtotales totales maior menor massimo minima massima deviazione
	media medie soma totale totali somma conteggio scarto gemiddelde gemiddeld totaal hoogste laagste aantal
	medel medelvarde medeltal totalt hogsta lagsta antal summa gjennomsnitt gennemsnit hoyeste laveste hojeste laveste snitt sum
	srednia razem suma najwyzszy najnizszy liczba odchylenie prumer celkem soucet atlag osszesen keskiarvo yhteensa ortalama toplam
	среднее средний средняя итого всего максимум минимум медиана 平均 平均值 平均値 合计 合計 总计 最高 最低 평균 합계 최고 최저 rata-rata rata jumlah tertinggi terendah
	max min mean maxi mini best worst top low high mode count counts range total sd ave moy med dt sumuj n`)

// names are those of them that may begin a person's name, so that words alone do
// not decide.
var names = setOf("max min mean maxi mini best worst top low high mode count range sum suma summa medel media medie soma som snitt schnitt ave moy med razem maximo minima massimo jumlah n sd dt atlag")

// beside are words that stand with them.
var beside = setOf(`class group team year form set grade squad department school whole all the of per and for in by to grand number no pupils students people girls boys men women male female m f w g b
	result results score scores value values time level age tested present value mark
	klasse gruppe jahrgang der die das und je alle von madchen jungen werte wert std standard dev
	classe groupe equipe de la le du des filles garcons ecart type et general generale clase grupo equipo del el los las y chicos chicas general turma
	gruppo squadra di della klas groep van klassen klass grupp flickor pojkar och klassens og ryhma klasa grupa dla trida`)

func setOf(words string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(words) {
		all[cell.Fold(w)] = true
	}
	return all
}

// Starts holds the first two letters of known words, in lower case. Most texts of
// a roster can be excluded by them at once.
type Starts map[[2]byte]bool

// StartsOf returns the Starts of words.
func StartsOf(words iter.Seq[string]) Starts {
	all := Starts{}
	for w := range words {
		if len(w) > 1 {
			all[[2]byte{w[0], w[1]}] = true
		}
	}
	return all
}

// RuleOut reports whether a text begins with two ASCII letters that begin no known
// word.
func (s Starts) RuleOut(text string) bool {
	if len(text) < 2 {
		return false
	}
	start := [2]byte{text[0] | 0x20, text[1] | 0x20}
	return IsLetter(start[0]) && IsLetter(start[1]) && !s[start]
}

// IsLetter reports whether c is a lower-case ASCII letter.
func IsLetter(c byte) bool { return 'a' <= c && c <= 'z' }

var summaryStarts = func() Starts {
	all := StartsOf(maps.Keys(statistics))
	maps.Copy(all, StartsOf(maps.Keys(beside)))
	return all
}()

// IsSummary reports whether a text names a statistic, such as "TOTAL / AVG" or
// "Class average 7b", and whether it is surely no person's name, as "Max" may be.
func IsSummary(text string) (is, sure bool) {
	if len(text) >= 40 || summaryStarts.RuleOut(text) {
		return false, false
	}
	if slices.Contains([]string{"Ø", "⌀", "Σ", "∑", "x̄", "μ"}, strings.Trim(text, " :.")) {
		return true, true
	}
	words := strings.FieldsFunc(cell.Fold(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) > 6 {
		return false, false
	}
	for _, w := range words {
		switch {
		case statistics[w]:
			is, sure = true, sure || !is && !names[w] // the first of them decides about "Max Total"
		case !beside[w] && !strings.ContainsFunc(w, unicode.IsDigit):
			return false, false
		}
	}
	return is, sure
}

// BeginsSummary reports whether the first or last word of a text names a statistic,
// and can't be a name: "Total raised", "Squad average".
func BeginsSummary(text string) bool {
	words := strings.FieldsFunc(cell.Fold(text), func(r rune) bool { return !unicode.IsLetter(r) })
	if len(words) == 0 {
		return false
	}
	first, last := words[0], words[len(words)-1]
	return statistics[first] && !names[first] || statistics[last] && !names[last]
}

// exampleWords begin a row that is an example, folded.
//
//nolint:misspell // one of them is French
var exampleWords = []string{"exemple", "example", "sample", "e.g.", "eg", "beispiel", "bsp", "z.b.", "ejemplo", "esempio", "exemplo", "voorbeeld", "exempel",
	"eksempel", "przyklad", "пример", "приклад", "esimerkki", "priklad", "pelda", "ornek", "例", "记入例", "記入例", "예", "예시", "contoh"}

var exampleStarts = StartsOf(slices.Values(exampleWords))

// IsExample reports whether a name is that of an example: the word alone, or with
// a colon or parentheses.
func IsExample(name string) bool {
	if exampleStarts.RuleOut(name) {
		return false
	}
	s := cell.Fold(name)
	return slices.ContainsFunc(exampleWords, func(w string) bool {
		rest, ok := strings.CutPrefix(strings.TrimLeft(s, "( "), w)
		return ok && (rest == "" || strings.ContainsAny(rest[:1], ":)") || strings.HasPrefix(strings.TrimLeft(rest, ". "), ":"))
	})
}

// printed matches what is printed round a list: "Page 1 of 2", "3 May 2026" and
// lines to sign on.
var printed = cell.Pattern(`\d+ ?(?:of|von|sur|de|di|van|av|af|z|/) ?\d+$|\d{1,2}[./-]\d{1,2}[./-](?:19|20)?\d\d\b|\b(?:19|20)\d\d\b|__|\.{4}|…{2}`)

// below are words that begin a line under a list, folded.
var below = setOf(`signature signed tested assessed recorded checked supervised teacher coach tester examiner date page printed legend key note notes remarks remark weather venue assessor
	unterschrift getestet datum seite lehrer lehrerin trainer legende hinweis bemerkung bemerkungen gezeichnet prufer geprüft
	professeur teste legende remarque remarques fecha firma pagina profesor profesora probado leyenda nota notas observaciones firmado
	data assinatura pagina professor legenda insegnante firma docente handtekening leraar getest pagina datum legenda
	underskrift sida testad larare side testet laerer podpis strona data nauczyciel legenda`)

// IsNote reports whether a text alone in its row is a remark rather than a name.
// Below the list it may be shorter.
func IsNote(s string, belowList bool) bool {
	fields := strings.Fields(s)
	words := len(fields)
	if words == 0 || HeadsGroup(fields) {
		return words > 0
	}
	return strings.ContainsAny(s, ":=?!") || strings.HasPrefix(s, "*") || words > 6 ||
		words > 3 && strings.HasSuffix(s, ".") || belowList && (words > 4 || BeginsNote(s)) ||
		!cell.HasLetters(s) || printed().MatchString(s)
}

// BeginsNote reports whether a text begins as lines under a list do, such as
// "Tested by".
func BeginsNote(s string) bool {
	first, _, _ := strings.Cut(cell.Fold(s), " ")
	return below[strings.Trim(first, ".,:-()")]
}

// HeadsGroup reports whether words alone in a row are the heading of a group,
// such as "Class 7a", "Team B" or "7a".
func HeadsGroup(words []string) bool {
	if len(words) == 0 || len(words) > 3 {
		return false
	}
	last := []rune(words[len(words)-1])
	counted := len(last) <= 3 && (unicode.IsDigit(last[0]) || len(last) == 1)
	if len(words) == 1 {
		return counted && unicode.IsDigit(last[0])
	}
	return counted && NamesGroup(words[0])
}

// NamesGroup reports whether a word is a header of groups, such as "Class".
func NamesGroup(word string) bool {
	m, ok := heading.Match(word)
	return ok && m.Role == roster.Group
}
