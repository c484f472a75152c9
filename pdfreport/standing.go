package pdfreport

import (
	"math"
	"strings"

	"tenback/scoring"
	"tenback/scoring/reference"
)

func (c *page) ages(a reference.Ages) string { return c.declared().Ages(a) }

// sexWord is how blocks of words are told the sex.
func sexWord(s scoring.Sex) string {
	if s == scoring.Female {
		return "female"
	}
	return "male"
}

type standingChapter struct{ *page }

// standing tells and draws where the number lies among people of the same age
// and sex; twice where the sex is not given.
func (c standingChapter) lay() block {
	b := c.heading("standing.heading")
	if len(c.adults) == 0 {
		key := "standing.no-row"
		if c.years < 0 {
			key = "standing.no-age"
		}
		return append(b, c.text(c.say(key, nil))...)
	}
	if len(c.adults) > 1 {
		b = append(b, c.text(c.say("flag.sex-missing", nil))...)
		b = append(b, space(2))
	}
	for _, st := range c.adults {
		b = append(b, c.text(c.groupWords(st))...)
		b = append(b, space(5), c.groupScale(st), space(4))
	}
	b = append(b, paragraphs(c.tableNote(c.adults[0].Table), smallFace, c.width)...)
	for _, text := range []string{c.second(), c.usual()} {
		if text != "" {
			b = append(b, space(3.5))
			b = append(b, c.text(text)...)
		}
	}
	return b
}

// second is the reading of the percentile table, unless the groups are of that
// table too.
func (c standingChapter) second() string {
	var friends []string
	for _, st := range c.adults {
		if hasSecond(st) {
			friends = append(friends, c.friend(st))
		}
	}
	if friends == nil {
		return ""
	}
	texts := append([]string{c.say("standing.second", nil)}, friends...)
	return strings.Join(append(texts, c.say("standing.differ", nil)), " ")
}

func hasSecond(st standing) bool { return st.HasPercent && !isFriend(st.Table) }

// usual compares the number with what is usual for age, sex and body size. An
// estimate without a test is itself made from these, so it is not compared.
func (c standingChapter) usual() string {
	e := c.score.Expected
	if e == nil || len(c.adults) != 1 || c.best.Test.Fallback || c.spares(spareComparison) {
		return ""
	}
	gap := float64(c.best.VO2 - e.VO2)
	side := "near"
	switch {
	case gap >= nearUsual:
		side = "above"
	case gap <= -nearUsual:
		side = "below"
	}
	return c.say("standing.usual", words{"Sex": sexWord(c.adults[0].Sex), "Value": float64(e.VO2), "SEE": float64(e.SEE),
		"Gap": math.Abs(float64(c.best.VO2.Tenths() - e.VO2.Tenths())), "Side": side, "Inside": math.Abs(gap) <= float64(e.SEE), "Source": e.Source})
}

// nearUsual is the distance (mL/kg/min) from the usual value below which the
// number counts as the same.
const nearUsual = 0.5

// groupWords names the group and how far the likely range reaches.
func (c standingChapter) groupWords(st standing) string {
	own := st.decades[0]
	key := "standing.group"
	if st.Table != reference.AdultGroups {
		key = "standing.group.named"
	}
	text := c.say(key, words{"Sex": sexWord(st.Sex), "Ages": c.ages(own.Ages),
		"Value": float64(c.best.VO2), "Group": c.groupName(st.Table, st.Group), "InTen": inTen(st.Chances[st.Group])})
	row, _ := st.Table.Row(st.Sex, c.years)
	low, high := c.best.Likely()
	lowest, highest := row.Group(low), row.Group(high)
	if lowest == highest {
		return text + " " + c.say("standing.within", nil)
	}
	return text + " " + c.say("standing.across", words{"Lowest": c.groupName(st.Table, lowest), "Highest": c.groupName(st.Table, highest)})
}

// inTen puts a chance in tenths: 10 from 95 % on, and never 0.
func inTen(chance float64) int { return max(1, int(math.Round(10*chance))) }

// friend is the second reading, always in sentences of its own.
func (c standingChapter) friend(st standing) string {
	slots := words{"Sex": sexWord(st.Sex), "Percentile": st.Percentile.At}
	switch {
	case st.Percentile.Below:
		return c.say("standing.friend.below", slots)
	case st.Percentile.Above:
		return c.say("standing.friend.above", slots)
	}
	return c.say("standing.friend", slots)
}

// groupAxis spans the groups of the given decades and the likely range, with
// room at both sides.
func (c *page) groupAxis(decades []scoring.Decade, width float64) axis {
	low, high := c.best.Likely()
	first, last := low, high
	bottom, top := scoring.VO2(1e3), scoring.VO2(0)
	for _, d := range decades {
		bottom = min(bottom, d.Goals[0].VO2)
		top = max(top, d.Goals[len(d.Goals)-1].VO2)
	}
	room := 0.28 * (top - bottom)
	span := max(top, last) - min(bottom, first)
	return axis{float64(max(0, min(bottom-room, first-roomForEnds*span))), float64(max(top+room, last+roomForEnds*span)), width}
}

const (
	stripHeight = 20.0
	tickLength  = 3.0
)

// groupScale draws the five groups with the likely range on them.
func (c standingChapter) groupScale(st standing) piece {
	own := st.decades[0]
	a := c.groupAxis(st.decades[:1], c.width)
	low, high := c.best.Likely()
	drawYou := c.you(a, float64(c.best.VO2), float64(low), float64(high))
	openings := c.openingLabels(a, own)
	names := c.groupLabels(a, st)
	const height = youHeight + stripHeight + tickLength + 11 + 12
	return piece{height, func(s *sheet, x, y float64) {
		top := y + youHeight
		drawStrip(s, a, own, x, top, stripHeight)
		from, to := segment(a, own, st.Group)
		s.frame(x+from+0.6, top+0.6, to-from-1.2, stripHeight-1.2, ink, 1.6)
		drawYou(s, x, y, top, top+stripHeight)
		base := top + stripHeight
		for i, l := range openings {
			at := a.at(float64(own.Goals[i].VO2))
			s.rule(x+at, base, x+l.at, base+tickLength, soft, 0.6)
			s.writeCentred(x+l.at, base+tickLength+7.6, l.text, l.face)
		}
		for g, l := range names {
			from, to := segment(a, own, reference.Group(g))
			if l.at < from+2 || l.at > to-2 {
				// The name had to step aside: a line shows where it belongs.
				s.rule(x+(from+to)/2, base, x+(from+to)/2, base+10, soft, 0.5)
				s.rule(x+(from+to)/2, base+10, x+l.at, base+tickLength+12, soft, 0.5)
			}
			s.writeCentred(x+l.at, base+tickLength+20, l.text, l.face)
		}
	}}
}

// openingLabels are the values that open the groups.
func (c standingChapter) openingLabels(a axis, d scoring.Decade) []label {
	var all []label
	for _, goal := range d.Goals {
		all = append(all, labelled(a.at(float64(goal.VO2)), c.one(goal.VO2), smallFace))
	}
	return spread(all, 4, a.width)
}

// groupLabelGap is the room between the names of groups.
const groupLabelGap = 7.0

// groupLabelSizes are tried from large to small until all names fit.
var groupLabelSizes = []float64{sizeBody, 8.4, sizeSmall}

// groupLabels are the names of the groups, the person's own in bold. Where they
// are too long to stand side by side in small letters too, they are cut; the table
// under the scale has them whole.
func (c standingChapter) groupLabels(a axis, st standing) []label {
	gaps := groupLabelGap * float64(len(reference.Groups()))
	for _, size := range groupLabelSizes {
		if all, width := c.groupLabelsOf(a, st, size, a.width); width+gaps <= a.width {
			return spread(all, groupLabelGap, a.width)
		}
	}
	all, _ := c.groupLabelsOf(a, st, sizeSmall, (a.width-gaps)/float64(len(reference.Groups())))
	return spread(all, groupLabelGap, a.width)
}

// groupLabelsOf are the names in a size, each cut to a width, and the width that
// they take together.
func (c standingChapter) groupLabelsOf(a axis, st standing, size, most float64) (all []label, width float64) {
	for _, g := range reference.Groups() {
		from, to := segment(a, st.decades[0], g)
		f := bodyFace.in(soft).at(size)
		if g == st.Group {
			f = bodyFace.with(bold).at(size)
		}
		name := cutText(c.groupName(st.Table, g), f.weight, most/f.size)
		all = append(all, labelled((from+to)/2, name, f))
		width += all[len(all)-1].width
	}
	return all, width
}

// segment is where a group begins and ends on the axis.
func segment(a axis, d scoring.Decade, g reference.Group) (from, to float64) {
	from, to = 0, a.width
	if g > reference.Low {
		from = a.at(float64(d.Goals[g-1].VO2))
	}
	if int(g) < len(d.Goals) {
		to = a.at(float64(d.Goals[g].VO2))
	}
	return from, to
}

// drawStrip draws the groups as fields from light to dark.
func drawStrip(s *sheet, a axis, d scoring.Decade, x, y, height float64) {
	for _, g := range reference.Groups() {
		from, to := segment(a, d, g)
		s.box(x+from, y, to-from, height, groupTones[g])
	}
	for _, goal := range d.Goals {
		at := x + a.at(float64(goal.VO2))
		s.rule(at, y, at, y+height, paper, 1)
	}
}

func (c standingChapter) cites() []string {
	var keys []string
	for _, st := range c.adults {
		if !st.Table.Own {
			keys = append(keys, st.Table.Source)
		}
		if hasSecond(st) {
			keys = append(keys, "kaminsky2022")
		}
	}
	if c.usual() != "" {
		keys = append(keys, c.score.Expected.Source)
	}
	return keys
}
