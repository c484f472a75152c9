package cell

import (
	"fmt"
	"slices"
	"strings"

	"tenback/scoring"
)

// sexWords holds words that mean the same in any language, folded. Single letters
// are in sexCodings.
var sexWords = func() map[string]scoring.Sex {
	all := map[string]scoring.Sex{}
	for _, w := range strings.Fields(`
		female f. fem woman women girl girls lady weiblich frau madchen feminin feminine femme fille
		femenino femenina mujer nina chica feminino feminina mulher menina femmina femminile donna ragazza
		vrouw vrouwelijk meisje kvinna flicka kvinnlig kvinne kvinde pige jente kobieta zenska dz dziewczynka
		dziewczyna женский женщина жен девочка девушка ж жен. perempuan wanita 女 女性 女子 女生 女孩 여 여자 여성 kadin kiz bayan tytto nainen zena divka holka lany κοριτσι γυναικα дівчина дівчинка жіноча mme mlle ms mrs`) {
		all[Fold(w)] = scoring.Female
	}
	for _, w := range strings.Fields(`
		male m. masc man men boy boys mannlich mann junge maskulin masculin masculine homme garcon
		masculino hombre varon nino chico homem menino maschio maschile uomo ragazzo
		mannelijk jongen pojke manlig mand dreng gutt mezczyzna meska ch chl chlopiec chlopak
		мужской мужчина муж мальчик юноша парень м муж. laki-laki laki pria lelaki 男 男性 男子 男生 男孩 남 남자 남성 erkek bay poika mies muz chlapec kluk ferfi fiu αγορι ανδρας хлопець хлопчик чоловіча mr`) {
		all[Fold(w)] = scoring.Male
	}
	return all
}()

// otherSex holds entries that say neither, folded. They are no mistake.
var otherSex = wordSet("x d o divers diverse other nonbinary non-binary nb enby unspecified undisclosed intersex autre otro otra outro altro anders andere annat inny inna другое 其他 その他 기타 lainnya u",
	"prefer_not_to_say not_given not_stated keine_angabe no_answer")

// coding is a pair of letters for male and female.
type coding struct{ male, female string }

// sexCodings holds the pairs of letters in use, folded. A letter may mean one sex
// in one language and the other in the next: M is mujer beside H, and meisje
// beside J. So a letter counts only if the header's language and the letters of
// the column agree on a pair.
var sexCodings = []struct {
	coding
	langs string // all languages if empty
	// alone marks pairs that decide where a column has only one letter; only, those
	// that no language but their own uses.
	alone, only bool
}{
	{coding{"m", "f"}, "", true, false},
	{coding{"m", "w"}, "de en", true, false},
	{coding{"m", "k"}, "pl sv nb da", true, false},
	{coding{"m", "v"}, "nl", true, false},
	{coding{"h", "f"}, "fr", true, false}, // homme, femme
	{coding{"h", "m"}, "es", true, false}, // hombre, mujer
	{coding{"v", "m"}, "es", true, false}, // varón, mujer
	{coding{"v", "d"}, "es", true, true},  // varón, dama
	{coding{"u", "d"}, "it", true, true},  // uomo, donna
	{coding{"b", "g"}, "en", false, false},
	{coding{"g", "f"}, "fr", false, false},    // garçon, fille
	{coding{"g", "j"}, "nb", false, false},    // gutt, jente
	{coding{"j", "m"}, "nl de", false, false}, // jongen, meisje; Junge, Mädchen
	{coding{"h", "d"}, "nl de", false, true},  // Herren, Damen
	{coding{"p", "f"}, "sv", false, false},    // pojke, flicka
	{coding{"d", "p"}, "da", false, true},     // dreng, pige
	{coding{"l", "p"}, "id", false, false},    // laki-laki, perempuan
	{coding{"e", "k"}, "tr", false, false},    // erkek, kadın
	{coding{"p", "t"}, "fi", false, false},    // poika, tyttö
	{coding{"m", "n"}, "fi", false, true},     // mies, nainen
	{coding{"m", "z"}, "cs", true, false},     // muž, žena
	{coding{"f", "n"}, "hu", true, true},      // férfi, nő
}

// sexLanguages holds the headers whose word, folded, tells the language.
var sexLanguages = [][2]string{{"sexo", "es"}, {"sesso", "it"}, {"sexe", "fr"}, {"geschl", "de"}, {"geslacht", "nl"}, {"kjonn", "nb"}, {"plec", "pl"},
	{"kelamin", "id"}, {"cinsiyet", "tr"}, {"sukupuoli", "fi"}, {"pohlavi", "cs"}, {"kon", "sv da"}, {"nem", "hu"}, {"m/v", "nl"}, {"n/m", "fi"}, {"m/n", "fi"}, {"h/m", "es"}}

// SexColumn is what the header and the cells of a column reveal about its codes.
// The zero value is ready to use.
type SexColumn struct {
	seen   map[string]bool        // single letters in use
	langs  []string               // of the header; nil if not known
	Codes  map[string]scoring.Sex // what numbers and letters mean
	legend bool
}

// ParseSexCodes parses what numbers in a column mean, such as "1=M, 2=F".
func ParseSexCodes(s string) (map[string]scoring.Sex, error) {
	codes := map[string]scoring.Sex{}
	for _, pair := range strings.Split(s, ",") {
		code, letter, _ := strings.Cut(strings.TrimSpace(pair), "=")
		sex, ok := map[string]scoring.Sex{"F": scoring.Female, "M": scoring.Male}[strings.ToUpper(strings.TrimSpace(letter))]
		if code = strings.TrimSpace(code); !ok || code == "" {
			return nil, fmt.Errorf("%q should be such as 1=M, 2=F", s)
		}
		codes[code] = sex
	}
	return codes, nil
}

var legendPart = Pattern(`(\d{1,2})(?:\s*[=:-]\s*)?(\p{L}+)|(\p{L}+)\s*[=:-]\s*(\d{1,2})|\b(\p{L})\s*=\s*(\p{L}{3,})`)
var letterPair = Pattern(`(?:^|[\s(\[:,])(\p{L})\s*/\s*(\p{L})(?:$|[\s)\],])`)

// ObserveHeader parses a legend in a header, such as "Sex (1 = male, 2 = female)"
// or "Gender M/W".
func (c *SexColumn) ObserveHeader(header string) {
	if len(header) > maxText {
		return
	}
	s := Fold(header)
	for _, m := range legendPart().FindAllStringSubmatch(s, -1) {
		code, word := m[1], m[2]
		switch {
		case m[5] != "":
			code, word = m[5], m[6]
		case code == "":
			code, word = m[4], m[3]
		}
		if sex, ok := c.word(word); ok && sex != scoring.SexUnspecified {
			c.addCode(code, sex)
		}
	}
	for _, l := range sexLanguages {
		if strings.HasPrefix(s, l[0]) || len(l[0]) > 3 && strings.Contains(s, l[0]) {
			c.langs = append(c.langs, strings.Fields(l[1])...)
		}
	}
	for _, m := range letterPair().FindAllStringSubmatch(s, -1) {
		c.see(m[1])
		c.see(m[2])
	}
}

func (c *SexColumn) addCode(code string, sex scoring.Sex) {
	if c.Codes == nil {
		c.Codes = map[string]scoring.Sex{}
	}
	c.Codes[code] = sex
	c.legend = true
}

func (c *SexColumn) see(letter string) {
	if c.seen == nil {
		c.seen = map[string]bool{}
	}
	for _, k := range sexCodings {
		if letter == k.male || letter == k.female {
			c.seen[letter] = true
		}
	}
}

// spoken reports whether the header's language may use a pair.
func (c *SexColumn) spoken(langs string, only bool) bool {
	if len(c.langs) == 0 {
		return !only
	}
	return langs == "" || slices.ContainsFunc(c.langs, func(l string) bool { return strings.Contains(langs, l) })
}

// Observe adds the evidence of one cell.
func (c *SexColumn) Observe(r Raw) {
	if r.Kind == Text && len(r.Text) <= maxText {
		c.see(sexKey(r.Text))
	}
}

func sexKey(text string) string { return strings.TrimSuffix(Fold(text), ".") }

// ParseSex parses female or male in the languages known. An empty cell and
// entries that say neither are SexUnspecified without a doubt. Number codes need
// a legend, because 1 means either sex in different sheets.
func (c *SexColumn) ParseSex(r Raw) (scoring.Sex, *Doubt) {
	if r.IsBlank() || SaysNoResult(r) {
		return scoring.SexUnspecified, nil
	}
	if d := r.unreadable(fixSex); d != nil {
		return scoring.SexUnspecified, d
	}
	key := sexKey(r.Text)
	if r.Kind == Number || leadsNumber(key) {
		return c.code(key)
	}
	if sex, ok := c.word(key); ok {
		return sex, nil
	}
	if sex, ok := c.twice(key); ok {
		return sex, nil
	}
	if len([]rune(key)) == 1 {
		return scoring.SexUnspecified, doubt(fixSex, eitherSex)
	}
	return scoring.SexUnspecified, doubt(fixSex, noSex)
}

// code looks up a number in the legend.
func (c *SexColumn) code(key string) (scoring.Sex, *Doubt) {
	if x, d := storedNumber(Raw{Text: key}); d == nil && len(key) <= 20 {
		key = trim(x)
	}
	if sex, ok := c.Codes[key]; ok {
		return sex, nil
	}
	if c.legend {
		return scoring.SexUnspecified, doubt(fixSex, notInLegend.With(key))
	}
	return scoring.SexUnspecified, doubt(fixLegend, noLegend)
}

func (c *SexColumn) word(key string) (scoring.Sex, bool) {
	if sex, ok := c.Codes[key]; ok {
		return sex, true
	}
	if sex, ok := c.letter(key); ok {
		return sex, sex != scoring.SexUnspecified
	}
	if sex, ok := sexWords[key]; ok {
		return sex, true
	}
	return scoring.SexUnspecified, otherSex.has(key)
}

// twice parses a sex given in two ways, such as "female (F)" or "女 F".
func (c *SexColumn) twice(key string) (sex scoring.Sex, ok bool) {
	words := strings.FieldsFunc(key, func(r rune) bool { return strings.ContainsRune(" /()", r) })
	if len(words) != 2 {
		return scoring.SexUnspecified, false
	}
	first, okFirst := c.word(words[0])
	second, okSecond := c.word(words[1])
	return first, okFirst && okSecond && first == second
}

// letter parses a letter of sexCodings; ok is false for anything else. The sex is
// unspecified if the possible pairs disagree.
func (c *SexColumn) letter(key string) (sex scoring.Sex, ok bool) {
	possible := c.Open(key)
	switch {
	case len(possible) == 1:
		return possible[0], true
	case len(possible) > 1:
		return scoring.SexUnspecified, true
	}
	return c.mixed(key)
}

// Open returns the sexes that a letter may mean by the pairs that explain the
// column.
func (c *SexColumn) Open(key string) (sexes []scoring.Sex) {
	for _, alone := range []bool{true, false} {
		if alone && len(c.seen) > 1 {
			continue
		}
		for _, k := range sexCodings {
			var this scoring.Sex
			switch key {
			case k.male:
				this = scoring.Male
			case k.female:
				this = scoring.Female
			default:
				continue
			}
			if (!alone || k.alone && (len(c.langs) > 0 || k.langs != "es")) && c.spoken(k.langs, k.only) && c.allows(k.coding) && !slices.Contains(sexes, this) {
				sexes = append(sexes, this)
			}
		}
		if len(sexes) > 0 {
			return sexes
		}
	}
	return nil
}

// Letters returns the letters seen that may mean either sex, in order.
func (c *SexColumn) Letters() (open []string) {
	for letter := range c.seen {
		if c.Codes[letter] == scoring.SexUnspecified && len(c.Open(letter)) > 1 {
			open = append(open, letter)
		}
	}
	slices.Sort(open)
	return open
}

// allows reports whether a pair explains every letter seen in the column, but for
// those that may say neither.
func (c *SexColumn) allows(k coding) bool {
	for letter := range c.seen {
		if letter != k.male && letter != k.female && !otherSex.has(letter) {
			return false
		}
	}
	return true
}

// mixed parses a letter in a column that no single pair explains, such as F, M
// and W. It counts if every pair that has it and another letter seen agrees.
func (c *SexColumn) mixed(key string) (sex scoring.Sex, ok bool) {
	for _, k := range sexCodings {
		if key != k.male && key != k.female || !c.spoken(k.langs, k.only) {
			continue
		}
		ok = !otherSex.has(key)
		if !c.seen[k.male] || !c.seen[k.female] {
			continue
		}
		this := scoring.Male
		if key == k.female {
			this = scoring.Female
		}
		if sex != scoring.SexUnspecified && sex != this {
			return scoring.SexUnspecified, true
		}
		sex, ok = this, true
	}
	return sex, ok
}
