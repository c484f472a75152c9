package heading

import (
	"strings"

	"tenback/workbook/cell"
)

// occasions holds words that distinguish occasions of a test, folded.
var occasions = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(`pre post before after start end mid fall autumn winter spring summer
		january february march april may june july august september october november december
		jan feb mar apr jun jul aug sep sept oct nov dec
		herbst fruhjahr fruhling sommer winter januar februar marz mai juni juli oktober dezember okt dez
		automne hiver printemps ete janvier fevrier mars avril juin juillet aout septembre octobre novembre décembre
		otono invierno primavera verano enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre
		host vinter var sommar autunno inverno estate`) {
		all[cell.Fold(w)] = true
	}
	return all
}()

var fourDigitYear = cell.Pattern(`^(?:19|20)\d\d(?:[/-]\d\d(?:\d\d)?)?$`)

// withoutOccasion removes the day, month, season or year of a test from a folded
// header: "beep test - sept", "2026 beep test", "run 12.05.2026".
func withoutOccasion(base string) (rest string, ok bool) {
	for _, form := range titleDates {
		base = form().ReplaceAllString(base, " ")
	}
	words := withoutWord(strings.Fields(base), "-")
	isOccasion := func(w string) bool {
		w = strings.Trim(w, ".,:;-")
		return occasions[w] || fourDigitYear().MatchString(w)
	}
	for len(words) > 1 && isOccasion(words[len(words)-1]) {
		words = words[:len(words)-1]
	}
	for len(words) > 1 && isOccasion(words[0]) {
		words = words[1:]
	}
	rest = strings.Trim(strings.Join(words, " "), " ,:;-")
	return rest, rest != "" && rest != base
}
