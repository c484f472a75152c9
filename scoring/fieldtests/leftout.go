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
		{"20 m shuttle run", "Mahar 2018, by laps and age", "Meas Phys Educ Exerc Sci 2018;22:239-249", coefficients + "; its errors (6.43 to 6.68) were seen"},
		{"20 m shuttle run", "Mahar 2010, by laps and body mass index", "convention abstract, 40 people of 15-16", "too few people; it only confirms a wide range"},
		{"20 m shuttle run", "Tomkinson 2017 and Ortega 2023, percentiles of the young", "Br J Sports Med 2017;51:1545 and 2023;57:299", "the tables were not obtained"},
		{"20 m shuttle run", "Matsuzaka 2004, Japanese youth", "Pediatr Exerc Sci 2004;16:113-125", coefficients + ", and no error"},
		{"20 m shuttle run", "Barnett 1993, Hong Kong youth", "Pediatr Exerc Sci 1993;5:42-50", coefficients + ", and no error"},
		{"20 m shuttle run", "Ramsbottom 1988, table of levels", "Br J Sports Med 1988;22(4):141-144", "the table itself was not seen"},
		{"3-minute step test on 30 cm", "Nguyen Thi Van Kieu 2020", "J Lifestyle Med 2020;10(1):21-29", coefficients},
		{"Intermittent recovery run", "Bangsbo 2008, levels 1 and 2", "Sports Med 2008;38:37-51", "seen in a secondary text only, without an error"},
		{"1-mile walk", "Pober 2002, on a treadmill", "Can J Appl Physiol 2002 (10.1139/h02-033)", "its coefficients were not seen; the track form does not hold there"},
		{"Submaximal cycle test", "Bjorkman 2016, two stages", "Eur J Appl Physiol 2016;116:1627-1638", "its coefficients are known from memory only, and a public copy prints others"},
		{"Submaximal cycle test", "Astrand and Ryhming 1954, one stage", "J Appl Physiol 1954;7:218-221", "its age factors are known from memory only, and printed forms disagree"},
		{"2 km walk", "fitness index", "oja1991", "gives an index and no VO2max"},
		{"6-minute walk", "Manttari 2018", "Clin Physiol Funct Imaging 2018;38:1038-1045", coefficients},
		{"6-minute walk", "Casanova 2011, distance norms", "Eur Respir J 2011;37:150-156", "its authors advise against the equation"},
		{"6-minute walk", "Enright and Sherrill 1998, distance norms", "Am J Respir Crit Care Med 1998;158:1384-1387", coefficients},
	}
}
