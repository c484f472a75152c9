package kit

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"
)

// About holds a document's properties.
type About struct {
	Page                   fpdf.SizeType
	Title, subject, Author string
	Program, Lang          string
	date                   time.Time // undated if zero
	key                    string    // of the person; may be empty
}

// Open starts a document. Its dates are fixed and its lists sorted, so that the
// same input gives the same bytes.
func (a About) Open() *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: a.Page})
	date := Pick(a.date.IsZero(), undated, a.date)
	pdf.SetCreationDate(date)
	pdf.SetModificationDate(date)
	pdf.SetCatalogSort(true)
	pdf.SetCompression(false) // a press does that
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

// AsError turns a panic of the PDF library into an error, because one document
// must not end the batch.
func AsError(err *error, what string) {
	if fault := recover(); fault != nil {
		*err = fmt.Errorf("%s: %v", what, fault)
	}
}

// Report describes a finished document.
type Report struct {
	Pages int
	// Replaced lists the characters that no font has and that are drawn as a
	// box, each once.
	Replaced []rune
}

// undated is the date of documents without a test day.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// keyMark precedes a person's key among the keywords of the file.
const keyMark = "tenback person "

// ErrNoKey is returned by ReadKey for a file without a single key.
var ErrNoKey = errors.New("the file does not name one person's key")

var (
	keyForm = regexp.MustCompile(`^[0-9a-f]*$`)
	// Our files' properties are not compressed. Names in them take two bytes a
	// character, so no name can pass for this line.
	keyLine = regexp.MustCompile(`(?m)^/Keywords \(` + keyMark + `([0-9a-f]+)\)$`)
)

// CheckKey returns an error if a key is not hexadecimal.
func CheckKey(key string) error {
	if !keyForm.MatchString(key) {
		return fmt.Errorf("the key %q is not hexadecimal", key)
	}
	return nil
}

// ReadKey returns the key of the person that a page is for. The error is ErrNoKey
// where there is none, or more than one.
func ReadKey(file []byte) (key string, err error) {
	found := keyLine.FindAllSubmatch(file, 2)
	if len(found) != 1 {
		return "", ErrNoKey
	}
	return string(found[0][1]), nil
}

// Paper is a paper size. The zero Paper is A4.
type Paper uint8

// The paper sizes.
const (
	A4 Paper = iota
	Letter
)

// ParsePaper parses "a4" or "letter", in any case.
func ParsePaper(name string) (Paper, error) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "a4":
		return A4, nil
	case "letter":
		return Letter, nil
	}
	return A4, fmt.Errorf("paper %q is not known; write a4 or letter", name)
}

func (p Paper) String() string {
	if p == Letter {
		return "letter"
	}
	return "a4"
}

// Size returns the width and height in points.
func (p Paper) Size() (width, height float64) {
	if p == Letter {
		return 612, 792
	}
	return 595.28, 841.89
}
