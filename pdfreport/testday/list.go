package testday

import (
	"slices"
	"strconv"
	"strings"

	"tenback/pdfreport/kit"
)

// spareLines are added to a list for people who turn up.
const spareLines = 2

// groupOnOwnPage is the size from which a group begins a page, so that its leader
// can have it.
const groupOnOwnPage = 8

type list struct{ columns }

// section is a part of the list under one heading.
type section struct {
	heading string
	people  []Listed
	newPage bool
	// groups alternate, so each name carries its own
	mixed bool
}

// sections splits the people by worksheet, and by group if each group stands
// together.
func (q list) sections() []section {
	if len(q.People) == 0 {
		return []section{{people: make([]Listed, q.Blank)}}
	}
	sheets := kit.StretchesOf(q.People, func(l Listed) string { return l.Sheet })
	var all []section
	for _, onSheet := range sheets {
		sheet := ""
		if len(sheets) > 1 {
			sheet = onSheet[0].Sheet
		}
		groups := kit.StretchesOf(onSheet, func(l Listed) string { return l.Group })
		if !kit.EachOnce(groups, func(l Listed) string { return l.Group }) {
			all = append(all, section{heading: q.clean(sheet), people: onSheet, newPage: true, mixed: true})
			continue
		}
		for i, group := range groups {
			heading := q.clean(sheet)
			if name := q.clean(group[0].Group); !strings.Contains(heading, name) {
				heading = strings.TrimPrefix(heading+" · "+name, " · ")
			}
			all = append(all, section{heading: heading, people: group, newPage: i == 0 || len(group) >= groupOnOwnPage})
		}
	}
	return all
}

// pages returns the pages of the list.
func (q list) pages() []kit.Block {
	note := kit.Paragraphs(q.Say(kit.Pick(len(q.People) == 0, "day.private.blank", "day.private"), nil), daySmall, q.width)
	head := q.head()
	const beforeNote = 6.0
	room := q.height - head.Height() - note.Height() - beforeNote
	var pages []kit.Block
	var page kit.Block
	used := 0.0
	finish := func() {
		if len(page) > 0 {
			pages = append(pages, slices.Concat(head, page, kit.Space(beforeNote), note))
			page, used = nil, 0
		}
	}
	add := func(p kit.Block) {
		page = kit.Stack(page, p)
		used += p.Height()
	}
	twins := q.twins()
	sections := q.sections()
	for n, sec := range sections {
		heading := q.sectionHeading(sec.heading)
		if sec.newPage || used+heading.Height()+3*writeHeight > room {
			finish()
		}
		add(heading)
		lines := len(sec.people)
		if len(q.People) > 0 && (n == len(sections)-1 || sections[n+1].newPage) {
			lines += spareLines
		}
		for i := range lines {
			if used+writeHeight > room {
				if i >= len(sec.people) {
					break // no page for spare lines alone
				}
				finish()
				if sec.heading != "" {
					add(q.sectionHeading(q.Say("day.continued", kit.Words{"Group": sec.heading})))
				}
			}
			switch {
			case i >= len(sec.people):
				add(q.line("", "", "", i))
			case len(q.People) == 0:
				add(q.line(strconv.Itoa(i+1), "", "", i))
			default:
				l := sec.people[i]
				small := ""
				if sec.mixed {
					small = q.clean(l.Group)
				}
				add(q.line(strconv.Itoa(l.Row), q.label(l, twins), small, i))
			}
		}
	}
	finish()
	return pages
}

// twins returns the names that more than one person has.
func (q *recording) twins() map[string]bool {
	count := map[string]int{}
	twins := map[string]bool{}
	for _, l := range q.People {
		count[l.Name]++
		twins[l.Name] = count[l.Name] > 1
	}
	return twins
}

// label returns a person's name, or else the ID; both for namesakes.
func (q *recording) label(l Listed, twins map[string]bool) string {
	switch {
	case l.Name == "":
		return q.clean(l.ID)
	case l.ID != "" && twins[l.Name]:
		return q.clean(l.Name) + " (" + q.clean(l.ID) + ")"
	}
	return q.clean(l.Name)
}

// sectionHeading sets the line over a group, if it has a name.
func (q list) sectionHeading(text string) kit.Block {
	if text == "" {
		return nil
	}
	text = kit.CutText(text, kit.Bold, q.width/dayHeading.Size)
	return kit.Draw(20, func(s *kit.Sheet, x, y float64) {
		s.Write(x, y+14.5, text, dayHeading)
		s.Rule(x, y+20, x+q.width, y+20, kit.Ink, thin)
	})
}

// line sets one person's line: number, name, and space to write. Every fifth rule
// is stronger, to guide the eye.
func (q list) line(number, name, group string, index int) kit.Block {
	nameLines := q.nameLines(name, group)
	stroke := kit.Pick(index%5 == 4, thick, thin)
	return kit.Draw(writeHeight, func(s *kit.Sheet, x, y float64) {
		const square = 11.0
		middle := y + writeHeight/2
		bottom := y + writeHeight
		s.Frame(x+(q.asked-square)/2, middle-square/2, square, square, kit.Ink, thin)
		at := x + q.asked
		s.WriteRight(at+q.row-7, middle+3.2, number, dayBody.At(9))
		at += q.row
		nameLines.Draw(s, at+3, middle-nameLines.Height()/2)
		upright := func(at float64) { s.Rule(at, y, at, bottom, kit.Hairline, thin) }
		upright(at)
		at += q.nameWidth
		for _, c := range q.more {
			upright(at)
			if c.fixed != "" {
				s.WriteCentred(at+c.width/2, middle+3.2, c.fixed, dayBody.At(9))
			}
			cell := 0.0
			if len(c.labels) > 0 {
				cell = c.width / float64(len(c.labels))
			}
			for i, label := range c.labels {
				s.WriteCentred(at+(float64(i)+0.5)*cell, middle+2.8, label, dayBody.At(8))
				if i > 0 {
					upright(at + float64(i)*cell)
				}
			}
			at += c.width
		}
		upright(at)
		s.Rule(x, bottom, x+q.width, bottom, kit.Ink, stroke)
	})
}

// nameLines sets a name, and the group under it, as large as fits.
func (q list) nameLines(name, group string) kit.Block {
	width := q.nameWidth - 6
	if name == "" {
		return nil
	}
	small := kit.Face{Size: 7.2, Colour: kit.Ink, Dense: true}
	if group != "" {
		look := kit.Largest(name, kit.Face{Weight: kit.Bold, Colour: kit.Ink, Dense: true}, width, 9.6, 8.4, 7.4)
		one := kit.Lines([]kit.Line{kit.OneLine(kit.CutText(name, kit.Bold, width/look.Size), kit.Bold)}, look, width, kit.Left)
		two := kit.Lines([]kit.Line{kit.OneLine(kit.CutText(group, kit.Regular, width/small.Size), kit.Regular)}, small, width, kit.Left)
		return kit.Beside(kit.At(0, kit.Stack(one, two)))
	}
	var lines []kit.Line
	look := kit.Face{Weight: kit.Bold, Colour: kit.Ink, Dense: true}
	for most, size := range []float64{10, 8.6, 6.3} {
		look.Size = size
		lines = kit.BreakLines(name, kit.Bold, width/size)
		if len(lines) <= most+1 {
			return kit.Lines(lines, look, width, kit.Left)
		}
	}
	look.Size = 6.2
	lines = kit.BreakLines(name, kit.Bold, (width-4)/look.Size)
	return kit.Lines(kit.LimitLines(lines, 3), look, width, kit.Left)
}
