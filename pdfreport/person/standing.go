package person

import (
	"math"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/outlook"
	"tenback/scoring/reference"
)

func (c *page) ages(a reference.Ages) string { return c.Declared().Ages(a) }

// sexWord is the sex in the slots of blocks.
func sexWord(s scoring.Sex) string {
	if s == scoring.Female {
		return "female"
	}
	return "male"
}

type standingChapter struct{ *page }

// lay says and draws where the number is among people of the same age and sex,
// for both sexes if the sex is missing.
func (c standingChapter) lay() kit.Block {
	b := c.Heading("standing.heading")
	if len(c.adults) == 0 {
		key := kit.Pick(c.years < 0, "standing.no-age", "standing.no-row")
		return kit.Stack(b, c.Text(c.Say(key, nil)))
	}
	if len(c.adults) > 1 {
		b = kit.Stack(b, c.Text(c.Say("flag.sex-missing", nil)), kit.Space(2))
	}
	for _, f := range c.score.Flags {
		if f.Code == scoring.FlagLowerReading { // it leads
			b = kit.Stack(b, c.Text(c.flag(f)), kit.Space(3))
		}
	}
	for _, st := range c.adults {
		b = kit.Stack(b, c.Text(c.groupWords(st)), kit.Space(5), c.groupScale(st), kit.Space(4))
	}
	b = kit.Stack(b, kit.Paragraphs(c.tableNote(c.adults[0].Table), kit.SmallFace, c.Width))
	if text := c.usual(); text != "" {
		b = kit.Stack(b, kit.Space(3.5), c.Text(text))
	}
	return b
}

// usual compares the number with the usual one for age, sex and body size. It
// skips an estimate without a test, which is itself made from these.
func (c standingChapter) usual() string {
	e := outlook.UsualOf(c.score.Entry())
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
	return c.Say("standing.usual", kit.Words{"Sex": sexWord(c.adults[0].Sex), "Value": float64(e.VO2), "SEE": float64(e.SEE),
		"Gap": math.Abs(float64(c.best.VO2.Tenths() - e.VO2.Tenths())), "Side": side, "Inside": math.Abs(gap) <= float64(e.SEE), "Source": e.Source})
}

// nearUsual is the distance (mL/kg/min) up to which the number counts as usual.
const nearUsual = 0.5

// groupWords name the group and the groups within the likely range.
func (c standingChapter) groupWords(st standing) string {
	own := st.decades[0]
	key := kit.Pick(st.Table.Own || st.Table == reference.AdultGroups, "standing.group.named", "standing.group")
	text := c.Say(key, kit.Words{"Sex": sexWord(st.Sex), "Ages": c.ages(own.Ages),
		"Value": float64(c.best.VO2), "Group": c.groupName(st.Table, st.Group), "InTen": inTen(st.Chances[st.Group])})
	row, _ := st.Table.Row(st.Sex, c.years)
	if c.years < row.Ages.Min {
		text += " " + c.Say("standing.youngest", nil)
	}
	if st.HasPercent {
		text += " " + c.percentile(st)
	}
	low, high := c.best.Likely()
	lowest, highest := row.Group(low), row.Group(high)
	if lowest == highest {
		return text + " " + c.Say("standing.within", nil)
	}
	return text + " " + c.Say("standing.across", kit.Words{"Lowest": c.groupName(st.Table, lowest), "Highest": c.groupName(st.Table, highest)})
}

// inTen puts a chance in tenths: 10 from 95 % on, and never 0.
func inTen(chance float64) int { return max(1, int(math.Round(10*chance))) }

// percentile says how many of the table's people have a lower value.
func (c standingChapter) percentile(st standing) string {
	slots := kit.Words{"Sex": sexWord(st.Sex), "Percentile": st.Percentile.At}
	switch {
	case st.Percentile.Below:
		return c.Say("standing.percentile.below", slots)
	case st.Percentile.Above:
		return c.Say("standing.percentile.above", slots)
	}
	return c.Say("standing.percentile", slots)
}

// groupAxis spans the groups of the decades and the likely range, with space at
// both sides.
func (c *page) groupAxis(decades []scoring.Decade, width float64) kit.Axis {
	low, high := c.best.Likely()
	first, last := low, high
	bottom, top := scoring.VO2(1e3), scoring.VO2(0)
	for _, d := range decades {
		bottom = min(bottom, d.Goals[0].VO2)
		top = max(top, d.Goals[len(d.Goals)-1].VO2)
	}
	room := 0.28 * (top - bottom)
	span := max(top, last) - min(bottom, first)
	return kit.Axis{Lo: float64(max(0, min(bottom-room, first-roomForEnds*span))), Hi: float64(max(top+room, last+roomForEnds*span)), Width: width}
}

// groupScale draws the five groups with the likely range.
func (c standingChapter) groupScale(st standing) kit.Block {
	own := st.decades[0]
	a := c.groupAxis(st.decades[:1], c.Width)
	low, high := c.best.Likely()
	drawYou := c.you(a, float64(c.best.VO2), float64(low), float64(high))
	openings := c.openingLabels(a, own)
	names := c.groupLabels(a, st)
	const height = youHeight + kit.StripHeight + kit.TickLength + 11 + 12
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		top := y + youHeight
		drawStrip(s, a, own, x, top, kit.StripHeight)
		from, to := segment(a, own, st.Group)
		s.Frame(x+from+0.6, top+0.6, to-from-1.2, kit.StripHeight-1.2, kit.Ink, 1.6)
		drawYou(s, x, y, top, top+kit.StripHeight)
		base := top + kit.StripHeight
		for i, l := range openings {
			at := a.At(float64(own.Goals[i].VO2))
			s.Rule(x+at, base, x+l.At, base+kit.TickLength, kit.Soft, 0.6)
			s.WriteCentred(x+l.At, base+kit.TickLength+7.6, l.Text, l.Face)
		}
		for g, l := range names {
			from, to := segment(a, own, reference.Group(g))
			if l.At < from+2 || l.At > to-2 {
				// The name had to move, so a line shows where it belongs.
				s.Rule(x+(from+to)/2, base, x+(from+to)/2, base+10, kit.Soft, 0.5)
				s.Rule(x+(from+to)/2, base+10, x+l.At, base+kit.TickLength+12, kit.Soft, 0.5)
			}
			s.WriteCentred(x+l.At, base+kit.TickLength+20, l.Text, l.Face)
		}
	})
}

// openingLabels returns the lowest values of the groups.
func (c standingChapter) openingLabels(a kit.Axis, d scoring.Decade) []kit.Label {
	var all []kit.Label
	for _, goal := range d.Goals {
		all = append(all, kit.Labelled(a.At(float64(goal.VO2)), c.one(goal.VO2), kit.SmallFace))
	}
	return kit.Spread(all, 4, a.Width)
}

const groupLabelGap = 7.0

// groupLabelSizes are tried in turn until all names fit.
var groupLabelSizes = []float64{kit.SizeBody, 8.4, kit.SizeSmall}

// groupLabels returns the names of the groups, the person's own in bold. If they
// do not fit in small type either, they are cut, since the table below has them
// whole.
func (c standingChapter) groupLabels(a kit.Axis, st standing) []kit.Label {
	gaps := groupLabelGap * float64(len(reference.Groups()))
	for _, size := range groupLabelSizes {
		if all, width := c.groupLabelsOf(a, st, size, a.Width); width+gaps <= a.Width {
			return kit.Spread(all, groupLabelGap, a.Width)
		}
	}
	all, _ := c.groupLabelsOf(a, st, kit.SizeSmall, (a.Width-gaps)/float64(len(reference.Groups())))
	return kit.Spread(all, groupLabelGap, a.Width)
}

// groupLabelsOf returns the names in a size, each cut to a width, and their total
// width.
func (c standingChapter) groupLabelsOf(a kit.Axis, st standing, size, most float64) (all []kit.Label, width float64) {
	for _, g := range reference.Groups() {
		from, to := segment(a, st.decades[0], g)
		f := kit.BodyFace.In(kit.Soft).At(size)
		if g == st.Group {
			f = kit.BodyFace.With(kit.Bold).At(size)
		}
		name := kit.CutText(c.groupName(st.Table, g), f.Weight, most/f.Size)
		all = append(all, kit.Labelled((from+to)/2, name, f))
		width += all[len(all)-1].Width
	}
	return all, width
}

// segment returns where a group begins and ends on the axis.
func segment(a kit.Axis, d scoring.Decade, g reference.Group) (from, to float64) {
	from, to = 0, a.Width
	if g > reference.Lowest {
		from = a.At(float64(d.Goals[g-1].VO2))
	}
	if int(g) < len(d.Goals) {
		to = a.At(float64(d.Goals[g].VO2))
	}
	return from, to
}

// drawStrip draws the groups as fields from light to dark.
func drawStrip(s *kit.Sheet, a kit.Axis, d scoring.Decade, x, y, height float64) {
	for _, g := range reference.Groups() {
		from, to := segment(a, d, g)
		s.Box(x+from, y, to-from, height, kit.GroupTones[g])
	}
	for _, goal := range d.Goals {
		at := x + a.At(float64(goal.VO2))
		s.Rule(at, y, at, y+height, kit.White, 1)
	}
}

func (c standingChapter) cites() []string {
	var keys []string
	for _, st := range c.adults {
		if !st.Table.Own {
			keys = append(keys, st.Table.Source)
		}
	}
	if c.usual() != "" {
		keys = append(keys, outlook.UsualOf(c.score.Entry()).Source)
	}
	return keys
}

// groupName returns the name of a group.
func (c *page) groupName(t *reference.GroupTable, g reference.Group) string {
	name := c.Declared().Group(t, g)
	if t.Own {
		return c.Clean.Text(kit.Unmarked(name))
	}
	return name
}

// friendPrefix begins the IDs of the FRIEND tables; year and machine follow.
const friendPrefix = "friend-"

// isFriend reports whether a table is an edition of FRIEND.
func isFriend(t *reference.GroupTable) bool { return strings.HasPrefix(t.ID, friendPrefix) }

// tableNote says on whom the groups are based.
func (c standingChapter) tableNote(t *reference.GroupTable) string {
	switch {
	case t.Own:
		return c.Say("standing.groups.own", kit.Words{"Table": c.Clean.Text(t.Source)})
	case isFriend(t):
		year, machine, _ := strings.Cut(strings.TrimPrefix(t.ID, friendPrefix), "-")
		return c.Say("standing.groups.friend", kit.Words{"Year": year, "Machine": machine})
	case t == reference.AdultGroups:
		return c.Say("standing.groups", nil)
	}
	return c.Say("standing.groups."+t.ID, nil)
}
