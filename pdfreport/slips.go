package pdfreport

import (
	"errors"
	"io"
	"slices"

	"tenback/templates"
)

// Slips are strips of paper that tell people the passwords of their pages, to
// cut apart and hand out.
type Slips struct {
	People  []Slip // in the order of the sheets
	Paper   Paper
	Words   *templates.Set
	Program string // name and version, for the foot
}

// Slip is one person's.
type Slip struct {
	Name     string
	File     string // name of the page's file
	Password string // one that was made, of 14 characters
}

// ErrNoSlips is returned where there is nobody to tell a password.
var ErrNoSlips = errors.New("there is nobody to tell a password")

// The grid of a sheet of slips.
const (
	slipColumns = 2
	slipRows    = 6
)

// WriteSlips writes the slips as a PDF: the same bytes for the same input.
// Whatever the texts hold, it returns an error rather than panic.
func WriteSlips(w io.Writer, s Slips) (Report, error) {
	return writeSlips(w, s, options{compress: true})
}

func writeSlips(w io.Writer, s Slips, o options) (report Report, err error) {
	defer asError(&err, "slips")
	if len(s.People) == 0 {
		return Report{}, ErrNoSlips
	}
	q := newPapers(s.Paper, s.Words, s.Program, o)
	q.title = q.say("slip.title", nil)
	width, height := q.width/slipColumns, q.height/slipRows
	var pages []block
	for sheetful := range slices.Chunk(s.People, slipColumns*slipRows) {
		var page block
		for row := range slices.Chunk(sheetful, slipColumns) {
			var side []column
			for i, slip := range row {
				side = append(side, column{float64(i) * width, q.slip(slip, width, height)})
			}
			page = append(page, beside(side...))
		}
		pages = append(pages, page)
	}
	return q.write(w, q.sheets(pages))
}

// slip is one slip, with dashed lines to cut along.
func (p *papers) slip(slip Slip, width, height float64) block {
	const padding = 13.0
	inner := width - 2*padding
	look := dayHeading.with(bold)
	name := cutText(p.clean(slip.Name), bold, inner/look.size)
	file := p.say("slip.file", words{"File": p.clean(slip.File)})
	text := paragraphs(p.say("slip.how", nil), daySmall, inner)
	password := face{size: 17, weight: bold, colour: ink}
	return block{{height, func(s *sheet, x, y float64) {
		s.dashed(x, y, x+width, y, soft, thin)
		s.dashed(x, y+height, x+width, y+height, soft, thin)
		s.dashed(x, y, x, y+height, soft, thin)
		s.dashed(x+width, y, x+width, y+height, soft, thin)
		x += padding
		s.write(x, y+20, name, look)
		s.write(x, y+33, cutText(file, regular, inner/daySmall.size), daySmall)
		s.write(x, y+60, slip.Password, password)
		text.draw(s, x, y+70)
	}}}
}
