package fieldtests

// LeftOut is a published equation that is not used because its numbers could
// not be checked against a text.
type LeftOut struct {
	Test, Name, Source string
	Missing            string // what would have to be seen
}

// LeftOutEquations lists them, so that a reader knows what was considered.
func LeftOutEquations() []LeftOut {
	coefficients := "its coefficients are known from memory only"
	return []LeftOut{
		{"1-mile walk", "Kline 1987, women and men apart", "kline1987", coefficients},
		{"20 m shuttle run", "Mahar 2011, by laps and body mass index", "Am J Prev Med 2011;41(4 Suppl 2):S117-S123", coefficients + "; its error (6.17) was seen"},
		{"20 m shuttle run", "Matsuzaka 2004, Japanese youth", "Pediatr Exerc Sci 2004;16:113-125", coefficients + ", and no error"},
		{"20 m shuttle run", "Barnett 1993, Hong Kong youth", "Pediatr Exerc Sci 1993;5:42-50", coefficients + ", and no error"},
		{"20 m shuttle run", "Ramsbottom 1988, table of levels", "Br J Sports Med 1988;22(4):141-144", "the table itself was not seen"},
		{"3-minute step test on 30 cm", "Nguyen Thi Van Kieu 2020", "J Lifestyle Med 2020;10(1):21-29", coefficients},
		{"Submaximal cycle test", "Astrand and Ryhming 1954, one stage", "J Appl Physiol 1954;7:218-221", "its age factors are known from memory only, and printed forms disagree"},
		{"2 km walk", "fitness index", "oja1991", "gives an index and no VO2max"},
		{"6-minute walk", "Manttari 2018", "seen in the abstract only", "its coefficients were not seen"},
	}
}
