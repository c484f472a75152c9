package cell

import "strings"

// noResult holds the ways of saying that someone has no value, folded and without
// full stops. They are information, not mistakes.
var noResult = wordSet(
	"\" 〃 - -- --- _ / // ? ?? x xx xxx * n/a na #n/a nil none null void nan missing unknown tbd tba",
	"dnf dns dnt dq abs absent absence away excused exempt exempted ill sick injured injury withdrawn retired left",
	"krank verletzt fehlt fehlend entschuldigt abwesend abgemeldet befreit attest ka abgebrochen",
	"absente absents dispense dispensee dispense(e) malade blesse blessee abandon",
	"ausente enfermo enferma lesionado lesionada np exento exenta",
	"faltou doente assente malato malata infortunato infortunata giustificato esonerato ritirato",
	"afwezig ziek geblesseerd franvarande sjuk skadad",
	"nieobecny nieobecna nb chory chora zw zwolniony zwolniona brak kontuzja",
	"н/я н/д нет болен больна болел болела освобожден освобождена осв отсутствует отсутствовал отсутствовала травма б/о",
	"缺 缺考 缺席 免 免考 免测 请假 未测 无 弃权 病假 伤病 欠席 見学 未実施 なし 棄権 欠",
	"inj forgot sairas poissa loukkaantunut syk skadet fravar fravaerende syg nemocny nemocna omluven chybi raporlu gelmedi hasta sakatlandi raporlu hianyzik beteg xb",
	"결석 미측정 없음 면제 병결 sakit izin absen cedera",
).with("did not finish", "did not start", "did not run", "did not attend", "not done", "no result", "no show",
	"no data", "no kit", "no shoes", "forgot kit", "medical note", "not tested", "not measured", "not available", "not known", "keine angabe", "nicht gelaufen",
	"non fait", "no presentado", "no presento", "niet gelopen", "ej deltagit", "ej gjort", "tidak hadir", "tidak ada")

type words map[string]bool

// wordSet returns the words of lists separated by blanks.
func wordSet(lists ...string) words {
	set := words{}
	for _, list := range lists {
		set.with(strings.Fields(list)...)
	}
	return set
}

func (w words) with(phrases ...string) words {
	for _, p := range phrases {
		w[Fold(p)] = true
	}
	return w
}

// dayOfAbsence matches a day and a month, as in "absent 5/12".
var dayOfAbsence = Pattern(`^\(?(?:\d{1,2}/\d{1,2}(?:/\d{2,4})?|\p{L}+)\)?$`)

// absentOn reports whether a folded text is a word for no result, of three
// letters or more, with at most three words or a day behind it, such as "DNF
// (cramp)".
func absentOn(s string) bool {
	words := strings.Fields(s)
	if len(words) < 2 || len(words) > 4 || len([]rune(words[0])) < 3 || words[0] == "left" || !noResult[strings.Trim(words[0], ".,:;")] {
		return false
	}
	for _, w := range words[1:] {
		if !dayOfAbsence().MatchString(strings.Trim(w, ".,:;")) {
			return false
		}
	}
	return true
}

// SaysNoResult reports whether the cell says that there is no value, such as
// "n/a", "-", "DNF" or "absent".
func SaysNoResult(r Raw) bool {
	if r.Kind != Text || len(r.Text) > maxText {
		return false
	}
	s := Fold(r.Text)
	return s != "" && (absentOn(s) || strings.Trim(s, ".") == "" || noResult[strings.ReplaceAll(s, ".", "")] || noResult[strings.Trim(s, "()")])
}
