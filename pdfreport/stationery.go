package pdfreport

import (
	"cmp"
	"time"

	"github.com/go-pdf/fpdf"
)

// layout sets what all chapters of a report use: head, foot, panels and text in
// the report's words, width and brand.
type layout struct {
	speaker
	clean        cleaner
	name         string // whom or what the report is about, cleaned
	program      string
	brand        *Brand
	organisation string // of the brand, cleaned
	contact      string // of the brand, cleaned
	paper        Paper
	width        float64 // of the type area, before scaling
	scale        float64 // 1, or less where everything is drawn smaller
}

// newLayout returns a layout for a report about name. furnish completes it.
func newLayout(says speaker, name string) layout {
	c := layout{speaker: says, scale: 1}
	c.name = c.clean.text(name)
	return c
}

// furnish sets the paper and what heads and feet are made of. brand may be nil.
func (c *layout) furnish(paper Paper, brand *Brand, program string) {
	if brand == nil {
		brand = &Brand{}
	}
	c.brand, c.paper, c.program = brand, paper, c.clean.text(program)
	c.organisation, c.contact = c.clean.text(brand.Organisation), c.clean.text(brand.Contact)
	width, _ := paper.size()
	c.width = width - 2*marginSide
}

// open starts the report's document. key may be empty.
func (c *layout) open(title, subject string, date time.Time, key string) *fpdf.Fpdf {
	width, height := c.paper.size()
	return about{page: fpdf.SizeType{Wd: width, Ht: height}, title: title, subject: subject,
		author: cmp.Or(c.organisation, c.program), program: c.program, lang: c.language.Lang(), date: date, key: key}.open()
}
