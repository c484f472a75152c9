// Package person draws the page that a person gets: one to two pages, A4 or
// Letter, from a [scoring.Score] and the words of a [templates.Set].
//
// Each chapter (headline.go, standing.go, ...) lays out its words and drawings.
// contents.go lists the chapters and fits them on the paper.
package person

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/templates"
)

// Person is who a page is for and what it is made from.
type Person struct {
	Name     string
	Group    string         // class, department or squad; may be empty
	Score    *scoring.Score // with an estimate, or a reading against norms
	Tested   time.Time      // the test day; zero if unknown
	Review   *change.Review // against earlier tests; nil if there are none
	Paper    kit.Paper
	Words    *templates.Set
	Program  string // name and version, for the foot
	Problems []Problem

	Audience templates.Audience // who reads the page
	Brand    *kit.Brand         // of the organisation; nil for none

	// Key is written into the file, where ReadKey finds it: whose page it is,
	// for programs, in hexadecimal digits. The file has none if it is empty.
	Key string
}

// Problem is something that the sheet held for the person and that could not be
// used as it was.
type Problem struct {
	Read string       // what stands in the cell, may be empty
	What scoring.Said // a short remark
}

// ErrNoScore is returned for a person with neither an estimate nor a reading
// against norms: there is no page without a number.
var ErrNoScore = errors.New("there is no number to make a page of")

// Write writes a person's page as a PDF of one or two pages. The same
// input gives the same bytes. Faults of the PDF library are returned as errors.
func Write(w io.Writer, p Person) (report kit.Report, err error) {
	defer kit.AsError(&err, fmt.Sprintf("page of %q", p.Name))
	if !p.hasNumber() {
		return kit.Report{}, ErrNoScore
	}
	if err := kit.CheckKey(p.Key); err != nil {
		return kit.Report{}, err
	}
	c := newPage(p)
	pdf := c.document(p)
	pages, err := c.draw(kit.NewSheet(pdf), func() {})
	if err != nil {
		return kit.Report{}, err
	}
	if err := kit.Output(w, pdf, true); err != nil {
		return kit.Report{}, fmt.Errorf("page of %q: %w", p.Name, err)
	}
	return kit.Report{Pages: pages, Replaced: c.Clean.Replaced}, nil
}

// hasNumber reports whether there is a number to make a page of.
func (p *Person) hasNumber() bool {
	return p.Score != nil && (p.Score.Best() != nil || len(p.Score.Norms) > 0)
}

// document opens the page's document.
func (c *page) document(p Person) *fpdf.Fpdf {
	return c.Open(headChapter{c}.title()+" – "+c.Name, c.Say(c.numberKey(), nil), p.Tested, p.Key)
}

// draw lays out the pages and adds them to a document. It calls begun on the
// first of them.
func (c *page) draw(s *kit.Sheet, begun func()) (pages int, err error) {
	shared, gaps := newContents(c).fit()
	if c.Err != nil {
		return 0, c.Err
	}
	for i, page := range shared {
		s.Pdf.AddPage()
		if i == 0 {
			begun()
		}
		s.Smaller(c.Scale, func() {
			y := kit.MarginTop
			if i > 0 {
				y = c.DrawContinued(s, y)
			}
			for _, b := range page {
				b.Draw(s, kit.MarginSide, y)
				y += b.Height() + gaps[i]
			}
			c.DrawFoot(s, i+1, len(shared))
		})
	}
	return len(shared), c.Err
}
