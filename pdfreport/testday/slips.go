package testday

import (
	"errors"
	"io"
	"slices"

	"tenback/pdfreport/kit"
	"tenback/templates"
)

// Slips is the input of slips of paper that tell people the passwords of their
// pages.
type Slips struct {
	People  []Slip // in the order of the sheets
	Paper   kit.Paper
	Words   *templates.Set
	Program string // name and version
}

// Slip is for one person.
type Slip struct {
	Name     string
	File     string // of the page
	Password string // generated, 14 characters
}

// ErrNoSlips is returned for no people.
var ErrNoSlips = errors.New("there is nobody to tell a password")

const (
	slipColumns = 2
	slipRows    = 6
)

// WriteSlips writes the slips as a PDF. The same input gives the same bytes.
func WriteSlips(w io.Writer, s Slips) (report kit.Report, err error) {
	defer kit.AsError(&err, "slips")
	if len(s.People) == 0 {
		return kit.Report{}, ErrNoSlips
	}
	q := newPapers(s.Paper, s.Words, s.Program)
	q.title = q.Say("slip.title", nil)
	width, height := q.width/slipColumns, q.height/slipRows
	var pages []kit.Block
	for sheetful := range slices.Chunk(s.People, slipColumns*slipRows) {
		var page kit.Block
		for row := range slices.Chunk(sheetful, slipColumns) {
			var side []kit.Column
			for i, slip := range row {
				side = append(side, kit.At(float64(i)*width, q.slip(slip, width, height)))
			}
			page = kit.Stack(page, kit.Beside(side...))
		}
		pages = append(pages, page)
	}
	return q.write(w, q.sheets(pages))
}

// slip sets one slip, with dashed lines to cut along.
func (p *papers) slip(slip Slip, width, height float64) kit.Block {
	const padding = 13.0
	inner := width - 2*padding
	look := dayHeading.With(kit.Bold)
	name := kit.CutText(p.clean(slip.Name), kit.Bold, inner/look.Size)
	file := p.Say("slip.file", kit.Words{"File": p.clean(slip.File)})
	text := kit.Paragraphs(p.Say("slip.how", nil), daySmall, inner)
	password := kit.Face{Size: 17, Weight: kit.Bold, Colour: kit.Ink}
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		s.Dashed(x, y, x+width, y, kit.Soft, thin)
		s.Dashed(x, y+height, x+width, y+height, kit.Soft, thin)
		s.Dashed(x, y, x, y+height, kit.Soft, thin)
		s.Dashed(x+width, y, x+width, y+height, kit.Soft, thin)
		x += padding
		s.Write(x, y+20, name, look)
		s.Write(x, y+33, kit.CutText(file, kit.Regular, inner/daySmall.Size), daySmall)
		s.Write(x, y+60, slip.Password, password)
		text.Draw(s, x, y+70)
	})
}
