package kit

import (
	"fmt"
	"time"

	"github.com/go-pdf/fpdf"
)

// About is what a document says of itself.
type About struct {
	Page                   fpdf.SizeType
	Title, subject, Author string
	Program, Lang          string
	date                   time.Time // the zero time is put as undated
	key                    string    // of the person whose page it is; empty for none
}

// Open starts a document whose bytes depend on nothing but what is drawn: its
// dates are fixed and its lists sorted.
func (a About) Open() *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: a.Page})
	date := a.date
	if date.IsZero() {
		date = undated
	}
	pdf.SetCreationDate(date)
	pdf.SetModificationDate(date)
	pdf.SetCatalogSort(true)
	pdf.SetCompression(false) // see press
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(a.Title, true)
	if a.subject != "" {
		pdf.SetSubject(a.subject, true)
	}
	pdf.SetAuthor(a.Author, true)
	pdf.SetCreator(a.Program, true)
	if a.key != "" {
		pdf.SetKeywords(keyMark+a.key, false)
	}
	pdf.SetLang(a.Lang)
	return pdf
}

// AsError turns a panic of the PDF library, which panics on input it did not
// expect, into an error: one document must not end the batch.
func AsError(err *error, what string) {
	if fault := recover(); fault != nil {
		*err = fmt.Errorf("%s: %v", what, fault)
	}
}

// Report tells what was made.
type Report struct {
	Pages int
	// Replaced lists the characters that no font has and that are drawn as a
	// box, each once, in the order met.
	Replaced []rune
}

// undated is the date written into a document whose test day is unknown, so
// that the same input gives the same bytes.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
