package cell

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"tenback/scoring"
)

const maxDigits = 20

// leadingNumber splits a cleaned text into the number at its start and the rest.
// A comma or full stop before exactly three digits may separate decimals or
// thousands: then both readings are returned, decimals first. Without a number
// there are no readings.
func leadingNumber(s string) (readings []float64, rest string) {
	sign := 1.0
	switch {
	case strings.HasPrefix(s, "-"):
		sign, s = -1, s[1:]
	case strings.HasPrefix(s, "+"):
		s = s[1:]
	}
	end := numberEnd(s)
	body, rest := s[:end], strings.TrimSpace(s[end:])
	for _, plain := range plainForms(body) {
		if len(plain) > maxDigits {
			return nil, rest
		}
		x, err := strconv.ParseFloat(plain, 64)
		if err != nil {
			return nil, rest
		}
		readings = append(readings, sign*x)
	}
	return readings, rest
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// digitsAt counts the digits from index i on.
func digitsAt(s string, i int) int {
	n := 0
	for i+n < len(s) && isDigit(s[i+n]) {
		n++
	}
	return n
}

// numberEnd returns where the number at the start of s ends. A blank or an
// apostrophe belongs to it only before exactly three digits.
func numberEnd(s string) int {
	i := 0
	for i < len(s) {
		switch c := s[i]; {
		case isDigit(c):
			i++
		case (c == '.' || c == ',') && digitsAt(s, i+1) > 0:
			i++
		case (c == ' ' || c == '\'') && i > 0 && digitsAt(s, i+1) == 3:
			i++
		default:
			return i
		}
	}
	return i
}

// plainForms returns the body of a number with a full stop before the decimals
// and no thousands separator: two forms if it is ambiguous, none if it is no
// number.
func plainForms(body string) []string {
	if strings.ContainsAny(body, " '") {
		whole, decimals, found := cutLast(body, ".,")
		if !found {
			whole = body
		}
		if strings.ContainsAny(decimals, " '") || !grouped(whole, " '") {
			return nil
		}
		body = onlyDigits(whole)
		if found {
			body += "." + decimals
		}
		return []string{body}
	}
	dots, commas := strings.Count(body, "."), strings.Count(body, ",")
	switch {
	case body == "":
		return nil
	case dots+commas == 0:
		return []string{body}
	case dots+commas == 1:
		whole, decimals, _ := cutLast(body, ".,")
		asDecimals := whole + "." + decimals
		if len(decimals) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
			return []string{asDecimals, whole + decimals}
		}
		return []string{asDecimals}
	case dots == 0 || commas == 0:
		if grouped(body, ".,") {
			return []string{onlyDigits(body)}
		}
		return nil
	}
	whole, decimals, _ := cutLast(body, ".,")
	mark := "."
	if strings.Contains(whole, ",") {
		mark = ","
	}
	if strings.Contains(whole, ".") == strings.Contains(whole, ",") || !grouped(whole, mark) {
		return nil
	}
	return []string{onlyDigits(whole) + "." + decimals}
}

func cutLast(s, marks string) (before, after string, found bool) {
	i := strings.LastIndexAny(s, marks)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+1:], true
}

// grouped reports whether the digits behind the first group are in groups of
// three.
func grouped(s, marks string) bool {
	groups := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(marks, r) })
	for i, g := range groups {
		if i == 0 && len(g) > 3 || i > 0 && len(g) != 3 || strings.ContainsAny(g, ".,'") {
			return false
		}
	}
	return len(groups) > 0
}

func onlyDigits(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, s)
}

// storedNumber parses a Number cell.
func storedNumber(r Raw) (float64, *Doubt) {
	x, err := strconv.ParseFloat(strings.TrimSpace(r.Text), 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, doubt(fixNumber, noStoredValue)
	}
	return x, nil
}

// Measure is what is known about an amount besides its cell.
type Measure struct {
	Unit scoring.Unit // of a number that names none: the header's, else the input's own
	// Fits reports whether a value is possible. It decides between "1,234" as a
	// little over one and as over a thousand.
	Fits func(scoring.Quantity) bool
	Fix  scoring.Said // what to type instead, for a Doubt
	// Unclear is why a number without a unit can't be read, for headers that name
	// two units; zero if it can.
	Unclear scoring.Said
}

var (
	feetInches = Pattern(`^(\d{1,2}) ?(?:'|ft\.?|feet|foot) ?(?:(\d{1,2}(?:[.,]\d{1,2})?) ?(?:"|in\.?|ins|inch|inches)?)?$`)
	stones     = Pattern(`^(\d{1,2}) ?(?:st|stone|stones)\.? ?(?:(\d{1,2}(?:[.,]\d{1,2})?) ?(?:lb|lbs|pounds?)?\.?)?$`)
)

// twoPart parses feet with inches and stones with pounds.
func twoPart(s string) (scoring.Quantity, bool) {
	for _, form := range []struct {
		re   *regexp.Regexp
		each float64
		unit scoring.Unit
	}{{feetInches(), 12, scoring.Inches}, {stones(), 14, scoring.Pounds}} {
		m := form.re.FindStringSubmatch(s)
		if m == nil {
			continue
		}
		big, _ := strconv.ParseFloat(m[1], 64)
		small := 0.0
		if m[2] != "" {
			small, _ = strconv.ParseFloat(strings.Replace(m[2], ",", ".", 1), 64)
		}
		if small >= form.each {
			return scoring.Quantity{}, false
		}
		return scoring.Q(big*form.each+small, form.unit), true
	}
	return scoring.Quantity{}, false
}

// ParseAmount parses a number with or without a unit, such as "72", "72 bpm",
// "1,75 m", "5 ft 7" or "1.234,5". The quantity is in the unit that was named.
func ParseAmount(r Raw, m Measure) (scoring.Quantity, *Doubt) {
	if d := r.unreadable(m.Fix); d != nil {
		return scoring.Quantity{}, d
	}
	if r.Kind == Number {
		return storedAmount(r, m)
	}
	s := strings.ToLower(Clean(r.Text))
	if q, ok := twoPart(s); ok {
		if !q.Unit.Converts(m.Unit) {
			return q, wrongUnit(s, m)
		}
		return q, nil
	}
	readings, rest := leadingNumber(s)
	if len(readings) == 0 {
		return scoring.Quantity{}, doubt(m.Fix, noNumber)
	}
	unit := m.Unit
	if rest != "" {
		named, ok := UnitOf(rest)
		if ok && SameWord(named, m.Unit) {
			named = m.Unit
		}
		switch {
		case !ok && leadsNumber(rest):
			return scoring.Quantity{}, doubt(m.Fix, severalNums)
		case !ok:
			return scoring.Quantity{}, doubt(m.Fix, noUnit.With(scoring.Quoted(rest)))
		case !named.Converts(m.Unit):
			return scoring.Quantity{}, wrongUnit(rest, m)
		}
		unit = named
	} else if !m.Unclear.IsZero() {
		return scoring.Quantity{}, doubt(m.Fix, m.Unclear)
	}
	return m.choose(readings, unit)
}

func leadsNumber(rest string) bool { return strings.ContainsAny(rest, "0123456789") }

func wrongUnit(named string, m Measure) *Doubt {
	return doubt(m.Fix, otherUnit.With(scoring.Quoted(named)))
}

func storedAmount(r Raw, m Measure) (scoring.Quantity, *Doubt) {
	x, d := storedNumber(r)
	if d != nil {
		return scoring.Quantity{}, d
	}
	switch f := r.Format; {
	case f.Class == Date || f.Class == DayTime:
		return scoring.Quantity{}, doubt(fixPlain.With(m.Fix), becameDate)
	case f.IsTime():
		return scoring.Quantity{}, doubt(fixPlain.With(m.Fix), becameTime)
	case f.Class == PerCent && m.Unit == scoring.Percent:
		return scoring.Q(x*100, scoring.Percent), nil
	case f.Class == PerCent:
		return scoring.Quantity{}, doubt(fixPlain.With(m.Fix), isPercentage)
	case f.Word:
		return scoring.Quantity{}, doubt(m.Fix, formatWord)
	case SameWord(f.Unit, m.Unit):
	case f.Unit != scoring.NoUnit && f.Unit.Converts(m.Unit):
		return scoring.Q(x, f.Unit), nil
	case f.Unit != scoring.NoUnit:
		return scoring.Quantity{}, wrongUnit(f.Unit.String(), m)
	}
	if !m.Unclear.IsZero() {
		return scoring.Quantity{}, doubt(m.Fix, m.Unclear)
	}
	return scoring.Q(x, m.Unit), nil
}

// choose picks the reading that is possible.
func (m Measure) choose(readings []float64, u scoring.Unit) (scoring.Quantity, *Doubt) {
	if len(readings) == 1 {
		return scoring.Q(readings[0], u), nil
	}
	var named []any
	fits := 0
	var chosen scoring.Quantity
	for _, x := range readings {
		q := scoring.Q(x, u)
		named = append(named, scoring.Exactly(x))
		if m.Fits != nil && m.Fits(q) {
			fits, chosen = fits+1, q
		}
	}
	if fits != 1 {
		return scoring.Quantity{}, doubt(fixUngroup.With(m.Fix), couldBe.With(or(named)))
	}
	return chosen, nil
}
