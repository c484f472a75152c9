package people

import (
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// TestSaidInEveryLanguage: what fills the slots is in the words of the language
// too.
func TestSaidInEveryLanguage(t *testing.T) {
	for _, c := range []struct {
		said           scoring.Said
		en, de, es, fr string
	}{
		{roster.InPlace.With(twoPeople.With(otherSex.With(thisID)), "5b!C7"), "this ID stands beside the other sex; taken as two people (5b!C7)",
			"diese Kennung steht auch neben dem anderen Geschlecht; als zwei Personen genommen (5b!C7)",
			"este ID está también junto al otro sexo; se tomaron como dos personas (5b!C7)",
			"cet identifiant est aussi à côté de l’autre sexe\u00a0; compté comme deux personnes (5b!C7)"},
	} {
		if got := c.said.String(); got != c.en {
			t.Errorf("got %q, want %q", got, c.en)
		}
		for lang, want := range map[string]string{"de": c.de, "es": c.es, "fr": c.fr} {
			w := sheetwords.Of(sheetwords.Builtin()[lang])
			if got := w.Said(c.said); got != want || w.Failure() != nil {
				t.Errorf("%s: got %q (%v), want %q", lang, got, w.Failure(), want)
			}
		}
	}
}
