package workbook

import (
	"slices"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// TestSaidInEveryLanguage: what fills the slots is in the words of the language
// too.
func TestSaidInEveryLanguage(t *testing.T) {
	phrase := func(id string) *scoring.Phrase {
		all := scoring.Phrases()
		return all[slices.IndexFunc(all, func(p *scoring.Phrase) bool { return p.ID == "roster."+id })]
	}
	day := time.Date(2031, 5, 1, 0, 0, 0, 0, time.UTC)
	mile := heading.MustTest("run-1-mile")
	for _, c := range []struct {
		said           scoring.Said
		en, de, es, fr string
	}{
		{phrase("born-after").With(day, day), "1 May 2031 is after the test on 1 May 2031", "der 1. Mai 2031 liegt nach dem Test vom 1. Mai 2031",
			"el 1 de mayo de 2031 es posterior a la prueba del 1 de mayo de 2031", "le 1er mai 2031 est après le test du 1er mai 2031"},
		{phrase("fix-other-unit").With(phrase("fix-type-unit").With(scoring.BodyMass, scoring.Kilograms), scoring.Pounds, scoring.Exactly(140.5)),
			"type the body mass in kg; if it is in lb, type 140.5 lb or name the unit in the header",
			"„Körpergewicht“ in kg eingeben; wenn die Einheit lb ist, 140,5 lb eingeben oder die Einheit in den Kopf schreiben",
			"escriba «masa corporal» en kg; si está en lb, escriba 140,5 lb o ponga la unidad en el encabezado",
			"écrivez «\u00a0poids\u00a0» en kg\u00a0; si c’est en lb, écrivez 140,5 lb ou mettez l’unité dans le titre"},
		{phrase("add-one").With(scoring.Header{Test: mile, Input: mile.Results[0].Input}), `add one such as "1 mile run"`, "eine anlegen, etwa „1-Meilen-Lauf“", "añada una, como «Carrera de 1 milla»",
			"ajoutez-en une, comme «\u00a0Course 1 mile\u00a0»"},
		{phrase("read-as").With(690 * time.Second), "read as 11:30", "gelesen als 11:30", "se leyó como 11:30", "lu comme 11:30"},
		{phrase("hidden-columns").With(roster.QuotedList([]string{"a\nb", "c"})), `hidden columns were read like the others: "a\nb", "c"`,
			"ausgeblendete Spalten wurden wie die anderen gelesen: „a b“, „c“", "las columnas ocultas se leyeron como las demás: «a b», «c»", //nolint:misspell // Spanish
			"des colonnes masquées ont été lues comme les autres\u00a0: «\u00a0a b\u00a0», «\u00a0c\u00a0»"},
		{phrase("fill-in").With(cell.OrEach([]string{"A", "B", "C"})), "fill in A or B or C", "ausfüllen: A oder B oder C", "complete A o B o C", "remplissez A ou B ou C"},
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
