package scoring

// maximalFrom is the respiratory exchange ratio from which the FRIEND tables
// take a test as maximal (kaminsky2015; the 2022 selection used here asks for
// 1.10).
const maximalFrom = 1.0

// checkLab flags laboratory values that cannot be, alone or together, and a
// test that was not maximal.
func (s *Score) checkLab() {
	e := s.entry
	if r, ok := e.Get(ExchangeRatio); ok && r.Amount < maximalFrom {
		s.Flags = append(s.Flags, Flag{FlagNotMaximal, sayInputIs.With(ExchangeRatio, Number{r.Amount, 2})})
	}
	first, has1 := e.Get(Threshold1HR)
	second, has2 := e.Get(Threshold2HR)
	if has1 && has2 && first.Amount >= second.Amount {
		s.Flags = append(s.Flags, Flag{FlagThresholds, sayFirstSecond.With(Number{first.Amount, 0}, Number{second.Amount, 0})})
	}
	if top, given := e.Get(MaxHR); given && has2 && second.Amount > top.Amount {
		s.Flags = append(s.Flags, Flag{FlagThresholds, saySecondTop.With(Number{second.Amount, 0}, Number{top.Amount, 0})})
	}
	for _, doubt := range FickOf(e).Doubts() {
		s.Flags = append(s.Flags, Flag{FlagImpossibleLab, doubt})
	}
}
