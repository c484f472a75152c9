package cell

import (
	"strconv"
	"strings"

	"tenback/scoring"
)

// Shuttle is the result of a shuttle run: a level with or without the shuttles
// done in it, all laps, or a speed.
type Shuttle struct {
	Input      scoring.Input // ShuttleLevel, ShuttleLaps or ShuttleSpeed
	Value      float64
	InLevel    int // shuttles done in the level
	HasInLevel bool
}

var (
	levelShuttle = Pattern(`^(?:level|lvl|lev|l|stage|stufe|palier|livello|nivel|nivå|niva)?\.? ?(\d{1,2}) ?(?:[.,/:;-]|, | ) ?(?:shuttles?|shut|s|sh)?\.? ?(\d{1,2})$`)
	levelAlone   = Pattern(`^(?:level|lvl|lev|l|stage|stufe|palier|livello|nivel|nivå|niva)\.? ?(\d{1,2})$`)
)

// ParseShuttle parses the level of a shuttle run. A whole number is the last
// level finished. A number with one decimal 1 may be shuttle 1 or 10: only text,
// or a format with two decimals, decides.
func ParseShuttle(r Raw) (Shuttle, *Doubt) {
	if d := r.unreadable(fixShuttle); d != nil {
		return Shuttle{}, d
	}
	switch r.Kind {
	case ISODate:
		return Shuttle{}, shuttleDate()
	case Number:
		return storedShuttle(r)
	}
	s := withoutPraise(strings.ToLower(Clean(r.Text)))
	if m := levelShuttle().FindStringSubmatch(s); m != nil {
		return levelAndShuttle(atoi(m[1]), atoi(m[2]))
	}
	if m := levelAlone().FindStringSubmatch(s); m != nil {
		return Shuttle{Input: scoring.ShuttleLevel, Value: float64(atoi(m[1]))}, nil
	}
	if fixed, ok := letterForDigit(s); ok {
		return Shuttle{}, doubt(typeThis.With(fixed), letterIn)
	}
	if writtenDate(s) {
		return Shuttle{}, shuttleDate()
	}
	readings, rest := leadingNumber(s)
	if len(readings) != 1 {
		return Shuttle{}, doubt(fixShuttle, noLevel)
	}
	if rest == "" {
		return wholeLevel(readings[0])
	}
	switch u, _ := UnitOf(rest); u {
	case scoring.Laps:
		return Shuttle{Input: scoring.ShuttleLaps, Value: readings[0]}, nil
	case scoring.KmPerHour, scoring.MilesPerHour, scoring.MetresPerSecond:
		return Shuttle{Input: scoring.ShuttleSpeed, Value: scoring.Q(readings[0], u).In(scoring.KmPerHour)}, nil
	case scoring.Levels:
		return wholeLevel(readings[0])
	}
	return Shuttle{}, doubt(fixShuttle, noLevel)
}

func shuttleDate() *Doubt {
	return doubt(fixAsText.With(fixShuttle), becameEither)
}

func wholeLevel(x float64) (Shuttle, *Doubt) {
	if x != float64(int(x)) {
		return Shuttle{}, doubt(fixShuttle, noLevel)
	}
	return Shuttle{Input: scoring.ShuttleLevel, Value: x}, nil
}

func levelAndShuttle(level, shuttle int) (Shuttle, *Doubt) {
	if float64(shuttle) > scoring.ShuttleInLevel.Info().Max {
		return Shuttle{}, doubt(fixShuttle, manyShuttles.With(shuttle))
	}
	return Shuttle{Input: scoring.ShuttleLevel, Value: float64(level), InLevel: shuttle, HasInLevel: true}, nil
}

func storedShuttle(r Raw) (Shuttle, *Doubt) {
	x, d := storedNumber(r)
	if d != nil {
		return Shuttle{}, doubt(fixShuttle, d.What)
	}
	if r.Format.IsTemporal() {
		return Shuttle{}, shuttleDate()
	}
	if x < 0 || x > 1e6 {
		return Shuttle{}, doubt(fixShuttle, noLevel)
	}
	// Sums such as 7 + 0.1 leave traces far behind the point.
	whole, decimals, _ := strings.Cut(strconv.FormatFloat(x, 'f', 6, 64), ".")
	decimals = strings.TrimRight(decimals, "0")
	switch {
	case decimals == "":
		return wholeLevel(x)
	case len(whole) > 2 || len(decimals) > 2:
		return Shuttle{}, doubt(fixShuttle, noLevel)
	case r.Format.Class == Plain && r.Format.Decimals == 2:
		return levelAndShuttle(atoi(whole), atoi((decimals + "0")[:2]))
	case decimals == "1":
		return Shuttle{}, doubt(fixLostZero.With(whole), lostZero.With(whole))
	}
	return levelAndShuttle(atoi(whole), atoi(decimals))
}

// HalfLevels determines whether a column holds levels and half levels rather than
// levels and shuttles: 6.5 may be either.
type HalfLevels struct{ halves, others int }

var levelWithFraction = Pattern(`^(\d{1,2})(?:[.,](\d{1,2})|(½))$`)

// Observe adds the evidence of one cell.
func (h *HalfLevels) Observe(r Raw) {
	switch half, fraction := fractionOf(r); {
	case half:
		h.halves++
	case fraction:
		h.others++
	}
}

// fractionOf reports whether a cell holds a level with a fraction, and whether
// that looks like a half.
func fractionOf(r Raw) (half, fraction bool) {
	if r.Kind != Number && r.Kind != Text || len(r.Text) > 8 {
		return false, false
	}
	m := levelWithFraction().FindStringSubmatch(strings.TrimSpace(r.Text))
	if m == nil {
		return false, false
	}
	return m[2] == "5" || m[3] != "", true
}

// Doubt returns why a cell can't be read if at least two results of the column
// are halves and none has another shuttle; nil if it can. ½ is no shuttle.
func (h *HalfLevels) Doubt(r Raw) *Doubt {
	if half, _ := fractionOf(r); !half || h.halves < 2 || h.others > 0 || strings.Contains(r.Text, "½") {
		return nil
	}
	level := levelWithFraction().FindStringSubmatch(strings.TrimSpace(r.Text))[1]
	return doubt(fixHalf.With(level), halfOrShuttle.With(level))
}
