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
	levelAlone   = Pattern(`^(?:(?:level|lvl|lev|stage|stufe|palier|livello|nivel|nivå|niva)\.?|l) ?(\d{1,2})$`) // "l.2" may be 1.2
)

// LevelColumn holds what the cells of a column say about how it writes levels.
type LevelColumn struct {
	Most           []int // shuttles in each level; nil if not known
	halves, others int   // levels and a half, levels with another shuttle
	padded         bool  // some cell is such as 7.30, which is 7.3 under a format with two decimals
}

// Parse parses the level of a shuttle run. A whole number is the last level
// finished. A number with one decimal 1 may be shuttle 1 or 10: text, a format
// with two decimals, or a level without a shuttle 10 decides.
func (c *LevelColumn) Parse(r Raw) (Shuttle, *Doubt) {
	if d := c.halfDoubt(r); d != nil {
		return Shuttle{}, d
	}
	if d := r.unreadable(fixShuttle); d != nil {
		return Shuttle{}, d
	}
	switch r.Kind {
	case ISODate:
		return Shuttle{}, shuttleDate()
	case Number:
		return c.storedShuttle(r)
	}
	s := withoutPraise(strings.ToLower(Clean(r.Text)))
	if m := levelWithFraction().FindStringSubmatch(s); m != nil && m[3] == "" {
		return c.levelAndDecimals(m[1], m[2])
	}
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

func (c *LevelColumn) storedShuttle(r Raw) (Shuttle, *Doubt) {
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
		return c.levelAndDecimals(whole, (decimals + "0")[:2])
	case decimals == "1":
		return c.lostZero(whole)
	}
	return levelAndShuttle(atoi(whole), atoi(decimals))
}

// levelAndDecimals reads a level and shuttle as shown.
func (c *LevelColumn) levelAndDecimals(level, shuttle string) (Shuttle, *Doubt) {
	switch {
	case isPadded(shuttle):
		return levelAndShuttle(atoi(level), atoi(shuttle[:1]))
	case shuttle == "10" && c.padded:
		return c.lostZero(level)
	}
	return levelAndShuttle(atoi(level), atoi(shuttle))
}

// isPadded reports whether two digits can only be one shuttle and a zero: no level
// has 20 shuttles.
func isPadded(shuttle string) bool {
	return len(shuttle) == 2 && shuttle[0] >= '2' && shuttle[1] == '0'
}

// lostZero reads level and shuttle 1, which may be shuttle 10 where the level has
// as many.
func (c *LevelColumn) lostZero(level string) (Shuttle, *Doubt) {
	if n := atoi(level); n >= 1 && n <= len(c.Most) && c.Most[n-1] < 10 {
		return levelAndShuttle(n, 1)
	}
	return Shuttle{}, doubt(fixLostZero.With(level), lostZero.With(level))
}

var levelWithFraction = Pattern(`^(\d{1,2})(?:[.,](\d{1,2})|(½))$`)

// Observe adds the evidence of one cell.
func (c *LevelColumn) Observe(r Raw) {
	half, shuttle := fractionOf(r)
	switch {
	case half:
		c.halves++
	case shuttle != "":
		c.others++
	}
	if r.Kind == Number && r.Format.Class == Plain && r.Format.Decimals == 2 && len(shuttle) == 1 {
		shuttle += "0"
	}
	c.padded = c.padded || isPadded(shuttle)
}

// fractionOf returns the shuttle of a level with a fraction, and whether that looks
// like a half.
func fractionOf(r Raw) (half bool, shuttle string) {
	if r.Kind != Number && r.Kind != Text || len(r.Text) > 8 {
		return false, ""
	}
	m := levelWithFraction().FindStringSubmatch(strings.TrimSpace(r.Text))
	if m == nil {
		return false, ""
	}
	return m[2] == "5" || m[3] != "", m[2]
}

// halfDoubt returns why a cell can't be read if at least two results of the column
// are halves and none has another shuttle, because 6.5 may be shuttle 5 or half a
// level; nil if it can. ½ is no shuttle.
func (c *LevelColumn) halfDoubt(r Raw) *Doubt {
	if half, _ := fractionOf(r); !half || c.halves < 2 || c.others > 0 || strings.Contains(r.Text, "½") {
		return nil
	}
	level := levelWithFraction().FindStringSubmatch(strings.TrimSpace(r.Text))[1]
	return doubt(fixHalf.With(level), halfOrShuttle.With(level))
}
