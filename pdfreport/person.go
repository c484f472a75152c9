package pdfreport

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

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
	Paper    Paper
	Words    *templates.Set
	Program  string // name and version, for the foot
	Problems []Problem

	Audience templates.Audience // who reads the page
	Brand    *Brand             // of the organisation; nil for none

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

// Report tells what was made.
type Report struct {
	Pages int
	// Replaced lists the characters that no font has and that are drawn as a
	// box, each once, in the order met.
	Replaced []rune
}

// ErrNoScore is returned for a person with neither an estimate nor a reading
// against norms: there is no page without a number.
var ErrNoScore = errors.New("there is no number to make a page of")

// undated is the date written into a document whose test day is unknown, so
// that the same input gives the same bytes.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// WritePerson writes a person's page as a PDF of one or two pages. The same
// input gives the same bytes. Faults of the PDF library are returned as errors.
func WritePerson(w io.Writer, p Person) (Report, error) {
	return write(w, p, options{compress: true})
}

// options are for tests.
type options struct {
	compress bool
	said     func(key, text string) // called with every block said, if not nil
}

func (o options) speaker(language *templates.Set) speaker {
	return speaker{language: language, said: o.said}
}

func write(w io.Writer, p Person, o options) (report Report, err error) {
	defer asError(&err, fmt.Sprintf("page of %q", p.Name))
	if !p.hasNumber() {
		return Report{}, ErrNoScore
	}
	if err := checkKey(p.Key); err != nil {
		return Report{}, err
	}
	c := newPage(p, o)
	pdf := c.document(p)
	pages, err := c.draw(newSheet(pdf), func() {})
	if err != nil {
		return Report{}, err
	}
	if err := output(w, pdf, o.compress); err != nil {
		return Report{}, fmt.Errorf("page of %q: %w", p.Name, err)
	}
	return Report{Pages: pages, Replaced: c.clean.replaced}, nil
}

// hasNumber reports whether there is a number to make a page of.
func (p *Person) hasNumber() bool {
	return p.Score != nil && (p.Score.Best() != nil || len(p.Score.Norms) > 0)
}

// document opens the page's document.
func (c *page) document(p Person) *fpdf.Fpdf {
	return c.open(c.title()+" – "+c.name, c.say(c.numberKey(), nil), p.Tested, p.Key)
}

// draw lays out the pages and adds them to a document. It calls begun on the
// first of them.
func (c *page) draw(s *sheet, begun func()) (pages int, err error) {
	shared, gaps := newContents(c).fit()
	if c.err != nil {
		return 0, c.err
	}
	for i, page := range shared {
		s.pdf.AddPage()
		if i == 0 {
			begun()
		}
		s.smaller(c.scale, func() {
			y := marginTop
			if i > 0 {
				y = c.drawContinued(s, y)
			}
			for _, b := range page {
				b.draw(s, marginSide, y)
				y += b.height() + gaps[i]
			}
			c.drawFoot(s, i+1, len(shared))
		})
	}
	return len(shared), c.err
}
