package pdfreport

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/reference"
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

// WritePerson writes a person's page as a PDF: one to two pages, the same
// bytes for the same input. Whatever the texts hold, it returns an error
// rather than panic.
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
	c := newComposer(p, o)
	pdf := c.document()
	pages, err := c.draw(newSheet(pdf, c.fonts), func() {})
	if err != nil {
		return Report{}, err
	}
	if err := output(w, pdf, o.compress); err != nil {
		return Report{}, fmt.Errorf("page of %q: %w", p.Name, err)
	}
	return Report{Pages: pages, Replaced: c.clean.replaced}, nil
}

// draw lays out the person's pages and adds them to a document; begun is called
// on the first of them.
func (c *composer) draw(s *sheet, begun func()) (pages int, err error) {
	shared, gaps := c.fit(c.paperHeight - marginTop - marginBottom)
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
			c.drawFoot(s, i+1, len(shared), c.paperHeight)
		})
	}
	return len(shared), c.err
}

// hasNumber tells whether there is a number to make a page of.
func (p *Person) hasNumber() bool {
	return p.Score != nil && (p.Score.Best() != nil || len(p.Score.Norms) > 0)
}

// composer lays out one person's page.
type composer struct {
	speaker
	name, group, program string
	problems             []Problem
	tested               time.Time
	score                *scoring.Score
	adults               []standing // of the score
	review               *change.Review
	best                 *scoring.Estimate    // nil for someone who is only read against norms,
	norm                 *scoring.NormReading // which are here then
	years                int                  // whole years lived; -1 if the age is not known
	youth                bool
	audience             templates.Audience
	brand                *Brand
	organisation         string // of the brand, and
	contact              string // as drawn
	key                  string // whose page it is, for programs
	fonts                *fontSet
	clean                cleaner
	paperWidth           float64
	paperHeight          float64
	width                float64 // of the type area, before it is drawn smaller
	scale                float64 // 1, or less where everything is drawn smaller
	spare                sparing // what is left out to save room
	asked                sparing // what the chapter that is laid out wanted to know of it
}

func newComposer(p Person, o options) *composer {
	c := &composer{tested: p.Tested, score: p.Score, review: p.Review, best: p.Score.Best(), years: -1, scale: 1,
		audience: p.Audience, speaker: o.speaker(p.Words.For(p.Audience)), key: p.Key, problems: p.Problems, fonts: fonts(), clean: cleaner{fonts: fonts()}}
	// The name first, for a document takes few code pages besides the core one.
	c.name, c.group = c.clean.text(p.Name), c.clean.text(p.Group)
	c.furnish(p.Paper, p.Brand, p.Program)
	if age, ok := p.Score.Entry().Get(scoring.Age); ok {
		c.years = reference.WholeYears(age.Amount)
		c.youth = scoring.IsYouth(age.Amount)
	}
	if c.best == nil {
		c.norm = &p.Score.Norms[0]
	}
	for _, st := range p.Score.Adults {
		c.adults = append(c.adults, standing{st, st.Decades()})
	}
	return c
}

// furnish settles what heads and feet are made from, and the paper. brand is nil
// for none.
func (c *composer) furnish(paper Paper, brand *Brand, program string) {
	if brand == nil {
		brand = &Brand{}
	}
	c.brand, c.program = brand, c.clean.text(program)
	c.organisation, c.contact = c.clean.text(brand.Organisation), c.clean.text(brand.Contact)
	c.paperWidth, c.paperHeight = paper.size()
	c.width = c.paperWidth - 2*marginSide
}

// sexes are the sexes to read against: the person's, or both where it is not
// given.
func (c *composer) sexes() []scoring.Sex {
	if sex := c.score.Entry().Sex(); sex != scoring.SexUnspecified {
		return []scoring.Sex{sex}
	}
	return []scoring.Sex{scoring.Female, scoring.Male}
}

// one writes a number with one decimal, as the language does.
func (c *composer) one(x scoring.VO2) string { return c.language.Number(float64(x), 1) }

// document opens a document with fixed dates.
func (c *composer) document() *fpdf.Fpdf {
	return about{page: fpdf.SizeType{Wd: c.paperWidth, Ht: c.paperHeight}, title: c.title() + " – " + c.name, subject: c.say(c.numberKey(), nil),
		author: cmp.Or(c.organisation, c.program), program: c.program, lang: c.language.Lang(), date: c.tested, key: c.key}.open()
}

// chapters lists what the page may hold, in the order of reading.
func (c *composer) chapters() []chapter {
	all := []chapter{{lay: c.head}, {lay: c.clinicianBox}}
	switch {
	case c.norm != nil:
		all = append(all, chapter{lay: c.normHeadline}, chapter{lay: c.normStanding}, chapter{lay: c.sinceLast, early: true}, chapter{lay: c.resting},
			chapter{lay: c.training, early: true}, chapter{lay: c.next, early: true},
			chapter{lay: c.cautions, early: true}, chapter{lay: c.normMethod}, chapter{lay: c.sources})
	case c.youth:
		all = append(all, chapter{lay: c.headline}, chapter{lay: c.tests}, chapter{lay: c.sinceLast}, chapter{lay: c.healthLine},
			chapter{lay: c.growth, early: true}, chapter{lay: c.helps, early: true}, chapter{lay: c.resting},
			chapter{lay: c.laboratory, early: true}, chapter{lay: c.cautions, early: true}, chapter{lay: c.method}, chapter{lay: c.sources})
	case c.dense():
		all = append(all, chapter{lay: c.headline}, chapter{lay: c.tests}, chapter{lay: c.sinceLast}, chapter{lay: c.standing}, chapter{lay: c.decades},
			chapter{lay: c.training, early: true}, chapter{lay: c.laboratory, early: true}, chapter{lay: c.resting, early: true},
			chapter{lay: c.independence, early: true},
			chapter{lay: c.next, early: true}, chapter{lay: c.cautions, early: true}, chapter{lay: c.method}, chapter{lay: c.sources})
	default:
		all = append(all, chapter{lay: c.headline}, chapter{lay: c.tests}, chapter{lay: c.sinceLast}, chapter{lay: c.standing}, chapter{lay: c.decades},
			chapter{lay: c.independence, early: true}, chapter{lay: c.resting, early: true},
			chapter{lay: c.training, early: true}, chapter{lay: c.laboratory, early: true},
			chapter{lay: c.next, early: true}, chapter{lay: c.cautions, early: true}, chapter{lay: c.method}, chapter{lay: c.sources})
	}
	return all
}

// parts lays the chapters out and leaves out those that have nothing to say.
func (c *composer) parts(chapters []chapter) []part {
	var kept []part
	for i := range chapters {
		if b := c.layOut(&chapters[i]); len(b) > 0 {
			kept = append(kept, part{b, chapters[i].early})
		}
	}
	return kept
}
