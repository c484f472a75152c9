package person

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"unicode/utf16"

	"tenback/pdfreport/kit"
)

// BookletMost is the recommended number of people in a booklet, because the
// library keeps a document in memory. So many people take about 280 MB, and the
// file has 10 MB.
const BookletMost = 1000

// WriteBooklet writes the pages of people, in order, as one document to be
// printed on both sides: each person begins on an odd page. Bookmarks name the
// people, under their groups if each group stands together.
//
// It returns an error for no people, and for a person without a page.
func WriteBooklet(w io.Writer, title string, people []Person) (pages int, err error) {
	if len(people) == 0 {
		return 0, errors.New("no people to print")
	}
	name := people[0].Name
	defer func() {
		if fault := recover(); fault != nil { // as kit.AsError, with the person at fault
			err = fmt.Errorf("page of %q: %v", name, fault)
		}
	}()
	for _, p := range people {
		if !p.tested() {
			return 0, fmt.Errorf("page of %q: %w", p.Name, ErrNoScore)
		}
	}
	first := newPage(people[0])
	pdf := first.document(people[0])
	pdf.SetTitle(first.Clean.Text(title), true)
	pdf.SetCompression(true) // so many plain pages would take too much memory
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
		drawn, err := newContents(c).draw(s, func() {
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

// bookmark adds a bookmark for the current page. The library writes the text
// unencoded, so it is converted to UTF-16 with a byte order mark.
func bookmark(s *kit.Sheet, text string, level int) {
	encoded := []byte{0xfe, 0xff}
	for _, unit := range utf16.Encode([]rune(text)) {
		encoded = append(encoded, byte(unit>>8), byte(unit))
	}
	s.Pdf.Bookmark(string(encoded), level, 0)
}
