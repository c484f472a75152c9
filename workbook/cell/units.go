package cell

import (
	"strings"
	"unicode"

	"tenback/scoring"
)

// unitWords holds the spellings of each unit, folded and without blanks and full
// stops.
var unitWords = map[scoring.Unit][]string{
	scoring.Kilograms:            {"kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogrammes", "кг", "公斤", "千克", "킬로그램"},
	scoring.Pounds:               {"lb", "lbs", "pound", "pounds", "磅"},
	scoring.Centimetres:          {"cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters", "см", "厘米", "센티미터"},
	scoring.Metres:               {"m", "mtr", "mtrs", "metre", "metres", "meter", "meters", "м", "метр", "метров", "米", "미터", "メートル"},
	scoring.Kilometres:           {"km", "kms", "kilometre", "kilometres", "kilometer", "kilometers", "км", "公里", "千米"},
	scoring.Miles:                {"mile", "miles", "mi", "英里"},
	scoring.Yards:                {"yd", "yds", "yard", "yards", "码"},
	scoring.Inches:               {"in", "ins", "inch", "inches", `"`},
	scoring.Seconds:              {"s", "sec", "secs", "second", "seconds", "sek", "sekunden", "seg", "segundos", "sekunder", "sekund", "secondes", "secondi", "seconden", "с", "сек", "秒", "초", "detik", "sn"},
	scoring.Minutes:              {"min", "mins", "minute", "minutes", "minuten", "minuti", "minutos", "minuter", "minut", "мин", "минут", "分", "分钟", "分鐘", "분", "menit", "dk"},
	scoring.BeatsPerMinute:       {"bpm", "beats/min", "beats/minute", "beatsperminute", "beats", "/min", "/minute", "b/min", "ppm", "bt/min", "s/min", "schlage/min", "lpm", "latidos/min", "bat/min", "bpmin", "уд/мин", "уд", "ударов", "次/分", "次/分钟", "回/分", "拍/分", "회/분", "slag/min", "puls/min", "x/menit", "1/min", "min-1"},
	scoring.BeatsPer30s:          {"beats/30s", "/30s", "per30s", "beatsper30s", "beatsin30s"},
	scoring.BeatsPer15s:          {"beats/15s", "/15s", "per15s", "beatsper15s", "beatsin15s"},
	scoring.BeatsPer10s:          {"beats/10s", "/10s", "per10s", "beatsper10s", "beatsin10s"},
	scoring.KmPerHour:            {"km/h", "kmh", "kph", "kmph", "км/ч", "公里/小时", "km/u", "km/t"},
	scoring.MilesPerHour:         {"mph", "mi/h", "miles/h", "miles/hour"},
	scoring.MetresPerMinute:      {"m/min", "m/minute", "м/мин"},
	scoring.MetresPerSecond:      {"m/s", "m/sec", "м/с"},
	scoring.Years:                {"y", "yr", "yrs", "year", "years", "yo", "y/o", "yearsold", "jahre", "jahr", "j", "ans", "an", "anos", "ano", "anni", "jaar", "ar", "lat", "lata", "rok", "лет", "год", "года", "岁", "歳", "才", "세", "살", "tahun"},
	scoring.Laps:                 {"lap", "laps", "回", "회", "趟", "次", "shuttles", "runden", "lengths"},
	scoring.Steps:                {"steps", "times"},
	scoring.Levels:               {"level", "levels", "stage", "stages", "stufe", "stufen", "palier", "paliers"},
	scoring.MLPerKgMin:           {"ml/kg/min", "ml/min/kg", "mlkg-1min-1", "ml·kg-1·min-1", "ml/(kg·min)", "ml/(kgmin)", "ml/(kg*min)", "ml/kg*min", "mlo2/kg/min"},
	scoring.LPerMin:              {"l/min", "lmin-1", "l·min-1", "lo2/min", "litres/min", "liters/min"},
	scoring.CyclesPerMinute:      {"cycles/min", "cycles/minute", "cyclesperminute", "stepcycles/min"},
	scoring.Watts:                {"w", "watt", "watts", "вт"},
	scoring.Percent:              {"%", "percent"},
	scoring.Millilitres:          {"ml"},
	scoring.MLPerLitre:           {"ml/l"},
	scoring.MillimetresOfMercury: {"mmhg", "mm/hg", "ммртст", "毫米汞柱"},
	scoring.KgPerSquareMetre:     {"kg/m2"},
}

var unitByWord = func() map[string]scoring.Unit {
	words := map[string]scoring.Unit{}
	for u, list := range unitWords {
		for _, w := range list {
			words[Fold(w)] = u
		}
	}
	return words
}()

// UnitOf returns the unit of a word or symbol in any of the languages known; ok
// is false if there is none.
func UnitOf(word string) (scoring.Unit, bool) {
	if len(word) > 40 {
		return scoring.NoUnit, false
	}
	word = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '.' {
			return -1
		}
		return r
	}, Fold(word))
	u, ok := unitByWord[word]
	return u, ok
}

// SameWord reports whether two units are written alike, such as litres a minute
// of oxygen, of blood and of air.
func SameWord(named, wanted scoring.Unit) bool {
	return named == wanted || strings.HasPrefix(wanted.String(), named.String()+" of ") && named != scoring.NoUnit
}
