package scoring

// screen reads the screening answers: who should be seen by a clinician
// before a test or hard exercise. Someone cleared by a clinician is not
// flagged again for what the clinician knew of; symptoms always are.
// Common practice, no single source; local rules come first.
func (s *Score) screen() {
	e := s.entry
	cleared := e.Says(Cleared)
	for _, in := range []Input{Symptoms, KnownDisease, Pregnant} {
		if e.Says(in) && (in == Symptoms || !cleared) {
			s.Flags = append(s.Flags, Flag{FlagSeeClinician, sayInput.With(in)})
		}
	}
	if e.Says(HeartRateDrug) {
		s.Flags = append(s.Flags, Flag{Code: FlagHeartRateDrug})
	}
}
