package pdfreport_test

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// Another library, which knows the standard (ISO 32000), finds nothing wrong
// with a page of any kind, nor with the document for the printer.
func TestValid(t *testing.T) {
	api.DisableConfigDir() // it would write into the home folder
	valid := func(name string, pdf []byte) {
		t.Helper()
		if err := api.Validate(bytes.NewReader(pdf), model.NewDefaultConfiguration()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, c := range cases {
		pdf, _ := pageOf(t, c.person(t))
		valid(name, pdf)
	}
	pdf, _ := booklet(t, people(t, "woman-45", "man-55", "greek", "vietnamese", "boy-12-below"))
	valid("booklet", pdf)
}
