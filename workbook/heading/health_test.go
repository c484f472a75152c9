package heading

import (
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// A header that asks about health is read as its question or asked about; one that
// only speaks of it is neither.
func TestHealthHeaders(t *testing.T) {
	for _, header := range strings.Split("Heart/metabolic condition|GP cleared|Meds|Medical info|PAR form ok?|Health questionnaire done|Any health issues?|Medical notes|GP happy?|Doctor says yes|"+
		"Seizures?|Heart|Screening form|Kidney trouble?|Medically OK|Any illness|On prescription|Cardiac hx|Health screening passed|High BP?|Family history|Asthma / inhaler|"+
		"Krankheiten?|Gesundheitsfragebogen|Herz|Hausarzt ok?|Problèmes de santé|Avis du médecin|Salud|Problemas de salud|Stato di salute|Gezondheid|Saúde|Hälsodeklaration|Zdrowie|Przeciwwskazania", "|") {
		h, ok := Match(header)
		if read := ok && isPersonal(h.Meaning); read == AsksHealth(header) && !read {
			t.Errorf("%q is left alone", header)
		}
	}
	for _, header := range strings.Split("Doctor's name|Medical room|GP practice|Health & Safety briefed|GP phone|Doctor|Nurse|Health insurance|Health class|Heart rate strap no|Medical centre|Hausarzt|Hausarztpraxis|"+
		"Médecin traitant|NHS number|Form|Notes|Job title|Department|Comments|Weather|Kit|Health and PE group|Krankenkasse|Name des Arztes|Nom du médecin|Nombre del médico|Photo consent|House|Lane|Coach", "|") {
		if h, ok := Match(header); AsksHealth(header) || ok && isYesNo(h.Meaning) && h.Role == roster.InputData {
			t.Errorf("%q is taken for a question: %v", header, h.Meaning)
		}
	}
	for header, want := range map[string]scoring.Input{"PAR form ok?": scoring.Cleared, "Health issues": scoring.KnownDisease, "Heart tablets, unsure which": scoring.HeartRateDrug} {
		if got := HealthQuestions(header); got[0] != want || len(got) != 3 {
			t.Errorf("%q may ask %v", header, got)
		}
	}
}
