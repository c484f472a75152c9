package cell

import (
	"strings"
	"unicode"
)

// nothing holds marks and words for a missing value of any kind, folded.
var nothing = wordSet("\" 〃 - -- --- _ / // ? ?? x xx xxx * n/a na #n/a nil none null void nan missing unknown tbd tba tbc")

// absences holds the words for someone who was not tested, a language a line,
// folded. A star stands for any ending, an underscore for a blank. Words of one
// or two letters are codes, which mean that only in a cell for a test.
var absences = wordSet(
	"a ab abs absent* absence away exc excused exempt* med medical medic* ill illness sick inj injur* hurt unwell unfit withdr* retired quit off out trip dns dnf dnt dnc dnp dna dq dsq dnr ns np nt nr cnp non-participant "+
		"forgot* suspended excluded truant isolation hospital holiday vacation appointment dentist late did_not_finish did_not_start did_not_run did_not_attend did_not_complete did_not_take_part not_done not_tested not_measured not_in not_in_school not_here not_present not_run not_taken not_available not_applicable not_known "+
		"no_result no_show no-show no_data no_kit no_shoes no_pe_kit no_time left left_early left_school",
	"e ent f k v krank* verletz* fehl* entsch entschuldig* unentschuldig* abwesen* abgemeldet befreit* attest* ka arzt verhindert abgebroch* aufgegeb* nicht_da nicht_dabei nicht_gelaufen nicht_getestet nicht_angetreten nicht_teilgenommen keine_angabe ohne_wertung kein_ergebnis",
	"absent* disp dispens* exempt* malad* bless* abandon* excuse* inapte non_fait non_teste non_note non_realise non_participant pas_fait pas_venu hors_service",
	"ausent* enferm* lesion* no_present* exent* exento* baja justific* falta falto no_asist* no_vino no_realiz* no_apto sin_dato sin_datos sin_resultado abandono retirad*",
	"assent* malat* infortun* giustific* esoner* ritirat* non_svolto non_presente non_eseguito",
	"faltou doente lesionad* dispensad* atestad* ausent* machucad* nao_fez nao_compareceu nao_realizou sem_dados",
	"afw afwezig* ziek* gebless* geblesseerd* vrijgesteld* niet_gelopen niet_aanwezig niet_getest niet_gedaan gestopt opgegeven",
	"fr franvar* sjuk* skad* ledig* ej_deltagit ej_gjort ej_narvarande deltog_ej bortrest",
	"syk* skadet fravaer* borte ikke_deltatt ikke_til_stede ikke_mott ikke_testet fritatt",
	"syg* fravaer* fravar* skadet ikke_deltaget fritaget",
	"nb nieob nieobecn* chor* zw zwoln* brak kontuzj* uraz usprawiedliw* nie_cwiczyl* nie_biegl*",
	"sairas poissa loukkaantu* ei_osallistunut", "nemoc* omluven* chybi zranen* neprit* nepritom*", "hianyz* beteg* felment* serult*", "raporlu gelmedi hasta sakat* izinli yok", "absent* bolnav* scutit* accidentat*",
	"н/я н/д нет болен больн* боле* освоб* осв отсут* травм* б/о", "хвор* відсутн* звільн*",
	"缺 缺考 缺席 缺勤 免 免考 免测 请假 未测 无 弃权 病假 伤病 受伤", "欠席 見学 未実施 なし 棄権 欠 怪我", "결석 미측정 없음 면제 병결 부상", "sakit izin absen cedera xb tidak_hadir tidak_ada",
)

// words is a set of folded words; stems are those of any ending, by their first byte.
type words struct {
	all   map[string]bool
	stems [256][]string
}

// wordSet returns the words of lists separated by blanks.
func wordSet(lists ...string) *words {
	set := &words{all: map[string]bool{}}
	for _, w := range strings.Fields(strings.Join(lists, " ")) {
		w = Fold(strings.ReplaceAll(w, "_", " "))
		if stem, ok := strings.CutSuffix(w, "*"); ok && stem != "" {
			set.stems[stem[0]] = append(set.stems[stem[0]], stem)
		} else {
			set.all[w] = true
		}
	}
	return set
}

// has reports whether a folded word is in the set. An ending has at most five
// letters.
func (w *words) has(word string) bool {
	if word == "" || w.all[word] {
		return w.all[word]
	}
	for _, stem := range w.stems[word[0]] {
		if rest, ok := strings.CutPrefix(word, stem); ok && len([]rune(rest)) <= 5 && strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 {
			return true
		}
	}
	return false
}

// dayOfAbsence matches a word, or a day and a month, as in "absent 5/12".
var dayOfAbsence = Pattern(`^\(?(?:\d{1,2}/\d{1,2}(?:/\d{2,4})?|\d{1,2}\.\d{1,2}\.(?:\d{2,4})?|[\p{L}'-]+\.?)\)?$`)

// saysAbsent reports whether a folded text has at most five words, one of them for
// an absence, and no number but a day: "DNF (cramp)", "off with flu", "absent 5/12".
func saysAbsent(s string) bool {
	words := strings.Fields(s)
	if len(words) < 2 || len(words) > 5 {
		return false
	}
	found := false
	for i, w := range words {
		w = strings.Trim(w, ",:;")
		if w != "-" && !dayOfAbsence().MatchString(w) {
			return false
		}
		w = strings.Trim(w, "().")
		isDay := strings.ContainsFunc(w, unicode.IsDigit)
		if isDay && i > 0 && words[i-1] == "left" {
			return false // a foot
		}
		found = found || !isDay && len(w) > 2 && absences.has(w)
	}
	return found
}

// SaysNoResult reports whether the cell says that there is no value, such as
// "n/a", "-", "DNF" or "absent".
func SaysNoResult(r Raw) bool {
	s := saidIn(r)
	return s != "" && (isNothing(s) || len(strings.ReplaceAll(s, ".", "")) > 2 && absent(s))
}

// SaysNotTested reports the same of a cell for a test, where codes such as "A" are
// absences too. A question mark asks, so it is none.
func SaysNotTested(r Raw) bool {
	s := saidIn(r)
	return s != "" && !strings.Contains(s, "?") && (isNothing(s) || absent(s))
}

// isNothing reports whether a folded text is a mark for a missing value.
func isNothing(s string) bool {
	short := strings.ReplaceAll(s, ".", "")
	return short == "" || nothing.has(short)
}

// IsWords reports whether a cell holds words without a digit, such as "hip surgery",
// and asks nothing.
func IsWords(r Raw) bool {
	return r.Kind == Text && HasLetters(r.Text) && !strings.ContainsAny(r.Text, "?:") && !strings.ContainsFunc(r.Text, unicode.IsDigit)
}

// beside matches words behind a value that say when it was taken, or that it is all.
var beside = Pattern(`(?i)[ ,(]*\b(?:in total|total|altogether|in all|at (?:the )?(?:end|finish)|au total|en tout|à la fin|à l[’']arrivée|insgesamt|gesamt|am ende|im ziel|en total|al final|al llegar|in totale|alla fine|all[’']arrivo|in totaal|aan het eind|totalt|vid mål|razem|łącznie|na mecie|no total|ao final)\)?\.?$`)

// WithoutBeside cuts such words off the text of a cell, as in "46 laps total".
func WithoutBeside(r Raw) (plain Raw, cut bool) {
	if r.Kind != Text || len(r.Text) > maxText {
		return r, false
	}
	plain = r
	plain.Text = strings.TrimSpace(beside().ReplaceAllString(strings.TrimSpace(r.Text), ""))
	return plain, plain.Text != "" && len(plain.Text) < len(strings.TrimSpace(r.Text))
}

// duration matches minutes that a test took.
var duration = Pattern(`(?i)^\d{1,2}(?:[.,]5)? ?(?:m|min|mins|minutes?|minuten|minutos?|minuti)\b[ .]*(?:done|finished|completed|steady|ok|full|gemacht|geschafft|faits?|hechos|fatti)?$`)

// IsMinutes reports whether a cell says only how many minutes a test took.
func IsMinutes(r Raw) bool {
	return r.Kind == Text && duration().MatchString(strings.TrimSpace(r.Text))
}

// absent reports whether a folded text says that someone was not tested.
func absent(s string) bool {
	return absences.has(strings.ReplaceAll(s, ".", "")) || absences.has(strings.Trim(s, "(). ")) || saysAbsent(s)
}

// saidIn returns the folded text of a cell; empty for a cell of another kind.
func saidIn(r Raw) string {
	if r.Kind != Text || len(r.Text) > maxText {
		return ""
	}
	return Fold(r.Text)
}

// IsZero reports whether a cell holds a 0, as a number or a time.
func IsZero(r Raw) bool {
	s := strings.TrimSpace(r.Text)
	return (r.Kind == Number || r.Kind == Text) && strings.Contains(s, "0") && strings.Trim(s, "0.,:") == ""
}
