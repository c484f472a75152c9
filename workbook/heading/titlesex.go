package heading

import (
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
)

// sexGroups holds words for people of one sex, as in the headings of lists,
// folded. Words for one person are left out, because they may be part of a name.
var sexGroups = func() map[string]scoring.Sex {
	all := map[string]scoring.Sex{}
	for sex, list := range map[scoring.Sex]string{
		scoring.Female: "girls women ladies females madchen frauen damen filles femmes chicas ninas mujeres ragazze donne meninas mulheres " +
			"meisjes vrouwen flickor tjejer kvinnor jenter kvinner piger kvinder dziewczeta dziewczyny kobiety девочки девушки женщины " +
			"女子 女生 여자 여학생 tytot naiset divky zeny kizlar kadinlar lanyok κοριτσια дівчата putri weiblich weibliche weibl feminin feminine femenino femenina femminile feminino feminina",
		scoring.Male: "boys men males jungen manner herren garcons hommes chicos ninos hombres ragazzi uomini meninos homens " +
			"jongens mannen pojkar killar man gutter menn drenge maend chlopcy mezczyzni мальчики юноши мужчины " +
			"男子 男生 남자 남학생 pojat miehet chlapci muzi erkekler fiuk αγορια хлопці putra mannlich mannliche mannl masculin masculine masculino masculina maschile",
	} {
		for _, w := range strings.Fields(list) {
			all[cell.Fold(w)] = sex
		}
	}
	delete(all, "man") // Swedish for men, and one man in English
	return all
}()

// SexIn returns the one sex that a title names, or SexUnspecified.
func SexIn(title string) scoring.Sex {
	found := scoring.SexUnspecified
	for _, w := range strings.FieldsFunc(cell.Fold(shorten(title)), func(r rune) bool { return strings.ContainsRune(" ,;:()[]|/_-.&+", r) }) {
		sex, ok := sexGroups[strings.TrimSuffix(strings.TrimSuffix(w, "s'"), "'s")]
		if !ok {
			sex, ok = sexGroups[strings.TrimSuffix(w, "'")]
		}
		if !ok {
			continue
		}
		if found != scoring.SexUnspecified && sex != found {
			return scoring.SexUnspecified
		}
		found = sex
	}
	return found
}
