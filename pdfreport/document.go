package pdfreport

import (
	"fmt"
	"time"

	"github.com/go-pdf/fpdf"
)

// about is what a document says of itself.
type about struct {
	page                   fpdf.SizeType
	title, subject, author string
	program, lang          string
	date                   time.Time // the zero time is put as undated
	key                    string    // of the person whose page it is; empty for none
}

// open starts a document whose bytes depend on nothing but what is drawn: its
// dates are fixed and its lists sorted.
func (a about) open() *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: a.page})
	date := a.date
	if date.IsZero() {
		date = undated
	}
	pdf.SetCreationDate(date)
	pdf.SetModificationDate(date)
	pdf.SetCatalogSort(true)
	pdf.SetCompression(false) // see press
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(a.title, true)
	if a.subject != "" {
		pdf.SetSubject(a.subject, true)
	}
	pdf.SetAuthor(a.author, true)
	pdf.SetCreator(a.program, true)
	if a.key != "" {
		pdf.SetKeywords(keyMark+a.key, false)
	}
	pdf.SetLang(a.lang)
	return pdf
}

// asError turns a panic of the PDF library, which panics on input it did not
// expect, into an error: one document must not end the batch.
func asError(err *error, what string) {
	if fault := recover(); fault != nil {
		*err = fmt.Errorf("%s: %v", what, fault)
	}
}
