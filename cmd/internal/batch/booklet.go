package batch

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"

	"tenback/pdfreport/person"
	"tenback/workbook/safefile"
)

// WriteBooklets writes the pages of all people into one document for the printer,
// or several where they are very many. path is that of the document without its
// ending. It returns the files and the number of pages in them.
func WriteBooklets(ctx context.Context, path, title string, people []person.Person) (files []string, pages int, err error) {
	for part := range slices.Chunk(people, person.BookletMost) {
		if err := ctx.Err(); err != nil {
			return files, pages, err
		}
		file := path + ".pdf"
		if n := len(files); n > 0 {
			file = fmt.Sprintf("%s-%d.pdf", path, n+1)
		}
		err := safefile.Write(file, func(w io.Writer) error {
			n, err := person.WriteBooklet(w, title, part)
			pages += n
			return err
		})
		if err != nil {
			return files, pages, fmt.Errorf("%s: %w", file, err)
		}
		files = append(files, file)
	}
	return files, pages, nil
}

// ByGroup sorts people by group, in the order in which the roster first names
// the groups. People without a group come last.
func ByGroup(people []person.Person) {
	order := map[string]int{}
	for _, p := range people {
		if _, known := order[p.Group]; !known {
			order[p.Group] = len(order)
		}
	}
	order[""] = len(order)
	slices.SortStableFunc(people, func(a, b person.Person) int { return cmp.Compare(order[a.Group], order[b.Group]) })
}
