// Package inquiry keeps the questions about a roster in a file beside it, and
// asks them on a terminal.
package inquiry

import (
	"path/filepath"

	"tenback/cmd/internal/batch"
	"tenback/templates"
	"tenback/workbook"
	"tenback/workbook/questions"
	"tenback/workbook/roster"
)

// Answers reads the answers in the file of questions beside a roster.
func Answers(path string, password func() (string, error)) (roster.Answers, error) {
	book, err := questions.Open(batch.FilesOf(path).Questions(), password)
	if err != nil {
		return roster.Answers{}, err
	}
	return book.Answers(), nil
}

// Inquiry holds what is asked about a roster.
type Inquiry struct {
	path   string // of the file of questions
	book   *questions.Book
	roster *roster.Roster
	words  *templates.Set
}

// Of returns what is asked about a roster with findings, with the answers that the
// file has now.
func Of(r *roster.Roster, findings []workbook.Finding, words *templates.Set, password func() (string, error)) (*Inquiry, error) {
	q := &Inquiry{path: batch.FilesOf(r.Path).Questions(), roster: r, words: words}
	old, err := questions.Open(q.path, password)
	if err != nil {
		return nil, err
	}
	q.book = questions.Of(r, findings, words)
	q.book.Keep(old, r.Unused)
	return q, nil
}

// Needed reports whether there is something to ask or an answer to keep.
func (q *Inquiry) Needed() bool { return q.book.Asks() || q.book.Answered() }

// Name returns the name of the file of questions.
func (q *Inquiry) Name() string { return filepath.Base(q.path) }

// Save writes the file of questions.
func (q *Inquiry) Save() error { return q.book.Save(q.path, q.roster, q.words) }
