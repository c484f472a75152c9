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

// ScreenFirst returns what to ask before any test.
// Common practice, no single source.
func ScreenFirst() []string {
	return []string{
		"Before any test ask about known heart, metabolic or kidney disease, chest pain, fainting, medicines and pregnancy. A yes to any: a clinician first.",
		"Nobody tests with a fever, soon after an illness, or against their wish.",
	}
}

// StopSigns returns when a test ends at once.
// Common practice, no single source.
func StopSigns() []string {
	return []string{
		"Stop at once on chest pain or pressure, faintness, dizziness, unusual breathlessness, confusion, cold clammy skin, or when the person asks to.",
		"Have a first-aider, a telephone and the way to a defibrillator at hand.",
	}
}
