package scoring

import "slices"

// Cautions returns what holds for the test: whom to ask what before it, how hard it
// may get, and when to stop it. Local rules and the advice of licensed professionals
// come first.
func (t *Test) Cautions() []string {
	all := ScreenFirst()
	if own := t.Exertion.Caution(); own != "" {
		all = append(all, own)
	}
	return slices.Concat(all, StopSigns())
}

// ScreenFirst returns what to ask before any test, and what follows from it.
// Common practice, no single source; maron2014 for the family, nata2007 for the trait.
func ScreenFirst() []string {
	return []string{
		"Before any test ask about known heart, metabolic or kidney disease, chest pain, fainting, medicines, pregnancy, and sudden deaths in the family before 50. A yes to any: a clinician first.",
		"With asthma the inhaler is at hand. With insulin, sugar is at hand and the blood sugar is checked before. With the sickle-cell trait, no all-out test in heat or at altitude.",
		"No test with a fever, within two weeks of a chest or viral illness, or against the person's wish.",
	}
}

// StopSigns returns when a test ends at once.
// Common practice, no single source.
func StopSigns() []string {
	return []string{
		"Stop at once on chest pain or pressure, faintness, dizziness, unusual breathlessness, confusion, cold clammy skin, or when the person asks to.",
		"Heat, smoke or altitude: shorten the test or choose another day.",
		"Have a first-aider, a telephone and the way to a defibrillator at hand.",
	}
}
