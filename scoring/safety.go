package scoring

// TestCautions holds for every field test: who should be seen before it, and
// when to stop it. Local rules and the advice of licensed professionals come
// first.
func TestCautions() []string { return append(ScreenFirst(), StopSigns()...) }

// ScreenFirst returns what to ask before any test.
// Common practice, no single source.
func ScreenFirst() []string {
	return []string{
		"Before any test ask about known heart, metabolic or kidney disease, chest pain, fainting, medicines and pregnancy. A yes to any: a clinician first.",
		"An all-out test is for people who are used to hard exercise. Others take a walking or step test.",
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
