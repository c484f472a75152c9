package person

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"unicode/utf16"

	"tenback/pdfreport/kit"
)

// BookletMost is the number of people from which a document of all pages should
// be made in several: the library keeps all of a document in memory. For so many
// people the program takes about 280 MB and some seconds, and the file has 10 MB.
const BookletMost = 1000

// WriteBooklet writes the pages of people, in order, as one document for the
// printer: each person begins on an odd page, with a blank page before where one
// is missing, so that both sides of the paper can be used. Bookmarks name the
// people, under their groups where each group stands together.
//
// title is the document's. What a single page would fail on is an error here;
// so are no people.
func WriteBooklet(w io.Writer, title string, people []Person) (pages int, err error) {
	if len(people) == 0 {
		return 0, errors.New("there is nobody to print")
	}
	name := people[0].Name
	defer func() {
		if fault := recover(); fault != nil { // as asError, of whom it came to
			err = fmt.Errorf("page of %q: %v", name, fault)
		}
	}()
	for _, p := range people {
		if !p.hasNumber() {
			return 0, fmt.Errorf("page of %q: %w", p.Name, ErrNoScore)
		}
	}
	first := newPage(people[0])
	pdf := first.document(people[0])
	pdf.SetTitle(first.Clean.Text(title), true)
	pdf.SetCompression(true) // of so many pages none should stay in memory as it is
	s := kit.NewSheet(pdf)
	groupOf := func(p Person) string { return p.Group }
	together, group := kit.EachOnce(kit.StretchesOf(people, groupOf), groupOf), ""
	for _, p := range people {
		name = p.Name
		if pages%2 == 1 {
			pdf.AddPage()
			pages++
		}
		c := newPage(p)
		drawn, err := c.draw(s, func() {
			depth := 0
			if together && c.group != "" {
				if c.group != group {
					bookmark(s, c.group, 0)
				}
				depth = 1
			}
			group = c.group
			bookmark(s, cmp.Or(c.Name, c.group, "–"), depth)
		})
		if err != nil {
			return 0, fmt.Errorf("page of %q: %w", p.Name, err)
		}
		pages += drawn
	}
	return pages, kit.Output(w, pdf, false)
}

// bookmark leads to the page begun last. The library writes the text as it is, so
// it is put in the encoding of the format's text strings, UTF-16 with a mark.
func bookmark(s *kit.Sheet, text string, level int) {
	encoded := []byte{0xfe, 0xff}
	for _, unit := range utf16.Encode([]rune(text)) {
		encoded = append(encoded, byte(unit>>8), byte(unit))
	}
	s.Pdf.Bookmark(string(encoded), level, 0)
}
