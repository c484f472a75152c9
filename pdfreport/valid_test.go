package pdfreport_test

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// TestValid validates pages of every kind and a booklet against ISO 32000, by
// another library.
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
