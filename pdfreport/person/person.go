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
	"slices"
	"time"

	"github.com/go-pdf/fpdf"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/templates"
)

// Person is the input of a page.
type Person struct {
	Name     string
	Group    string         // class, department or squad; may be empty
	Score    *scoring.Score // of someone who was tested
	Tested   time.Time      // zero if unknown
	Review   *change.Review // against earlier tests; nil for none
	Paper    kit.Paper
	Words    *templates.Set
	Program  string // name and version
	Problems []Problem
	Suits    []*scoring.Test // tests that suit the person better than those without a number

	Audience templates.Audience // of the page
	Brand    *kit.Brand         // nil for none

	// Key says for programs whose page it is: hexadecimal digits, which
	// kit.ReadKey finds in the file. It may be empty.
	Key string
}

// Problem is something in the sheet that could not be used as it was.
type Problem struct {
	Read string       // text of the cell, may be empty
	What scoring.Said // a short remark
	// Unread is set on an entry that may have cost the score.
	Unread bool
}

// ErrNoScore is returned for a person about whom no test says anything.
var ErrNoScore = errors.New("no test to make a page of")

// Write writes a person's page as a PDF of one or two pages. The same input gives
// the same bytes. It returns faults of the PDF library as errors.
func Write(w io.Writer, p Person) (report kit.Report, err error) {
	defer kit.AsError(&err, fmt.Sprintf("page of %q", p.Name))
	if !p.tested() {
		return kit.Report{}, ErrNoScore
	}
	if err := kit.CheckKey(p.Key); err != nil {
		return kit.Report{}, err
	}
	c := newPage(p)
	pdf := c.document(p)
	pages, err := newContents(c).draw(kit.NewSheet(pdf), func() {})
	if err != nil {
		return kit.Report{}, err
	}
	if err := kit.Output(w, pdf, true); err != nil {
		return kit.Report{}, fmt.Errorf("page of %q: %w", p.Name, err)
	}
	return kit.Report{Pages: pages, Replaced: c.Clean.Replaced}, nil
}

// tested reports whether there is something to say about a test.
func (p *Person) tested() bool {
	return p.Score != nil && (p.Score.Best() != nil || len(p.Score.Norms)+len(p.Score.Refused) > 0 ||
		slices.ContainsFunc(p.Problems, func(x Problem) bool { return x.Unread }))
}

// document starts the page's document.
func (c *page) document(p Person) *fpdf.Fpdf {
	return c.Open(headChapter{c}.title()+" – "+c.Name, c.Say(c.numberKey(), nil), p.Tested, p.Key)
}

// draw lays out the pages and adds them to a document. It calls begun on the
// first one.
func (c *contents) draw(s *kit.Sheet, begun func()) (pages int, err error) {
	shared, gaps := c.fit()
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
