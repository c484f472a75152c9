package scoring

import "slices"

// screen reads the screening answers: who should be seen by a clinician
// before a test or hard exercise. Someone cleared by a clinician is not
// flagged again for what the clinician knew of; symptoms always are.
// Common practice, no single source; local rules come first.
func (s *Score) screen() {
	e := s.entry
	cleared := e.Says(Cleared)
	for _, in := range []Input{Symptoms, KnownDisease, Pregnant, HeartRateDrug} {
		if e.Says(in) && (in == Symptoms || !cleared) {
			s.Flags = append(s.Flags, Flag{FlagSeeClinician, sayInput.With(in)})
		}
	}
	if e.Says(HeartRateDrug) {
		s.Flags = append(s.Flags, Flag{Code: FlagHeartRateDrug})
	}
}

// SeeClinicianFirst reports whether a clinician should see the person before another
// test or hard exercise. Such a person gets no target and no training range.
func (s *Score) SeeClinicianFirst() bool {
	return slices.ContainsFunc(s.Flags, func(f Flag) bool { return f.Code.Severity() == Clinician })
}
