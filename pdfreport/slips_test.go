package pdfreport_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"tenback/pdfreport/testday"
	"tenback/templates"
)

// slipsOf makes slips for n people, every fifth with long texts.
func slipsOf(n int) testday.Slips {
	s := testday.Slips{Words: english, Program: "tenback test"}
	for i := range n {
		slip := testday.Slip{Name: fmt.Sprintf("Person %d", i), File: fmt.Sprintf("Person %d.pdf", i), Password: fmt.Sprintf("aaaa-bbbb-%04d", i)}
		if i%5 == 4 {
			slip.Name = strings.Repeat("Long Name ", 12)
			slip.File = slip.Name + ".pdf"
		}
		s.People = append(s.People, slip)
	}
	return s
}

// TestSlips: every person has a slip, with the password beside the name.
func TestSlips(t *testing.T) {
	for _, lang := range templates.Languages() {
		set, err := templates.Load(lang, "")
		if err != nil {
			t.Fatal(err)
		}
		all := slipsOf(25)
		all.Words = set
		var out bytes.Buffer
		report, err := testday.WriteSlips(&out, all)
		if err != nil {
			t.Fatal(err)
		}
		if report.Pages != 3 {
			t.Errorf("%s: %d pages", lang, report.Pages)
		}
		ops := extract(t, out.Bytes())
		at := map[string]textOp{}
		for _, op := range ops {
			at[op.text] = op
		}
		for i, slip := range all.People {
			password, ok := at[slip.Password]
			if !ok {
				t.Errorf("%s: no password of person %d", lang, i)
				continue
			}
			if name, ok := at[slip.Name]; ok && (name.page != password.page || name.x != password.x) {
				t.Errorf("%s: the password of person %d stands elsewhere than the name", lang, i)
			} else if !ok && i%5 != 4 {
				t.Errorf("%s: no name of person %d", lang, i)
			}
		}
		again := bytes.Buffer{}
		if _, err := testday.WriteSlips(&again, all); err != nil || !bytes.Equal(out.Bytes(), again.Bytes()) {
			t.Errorf("%s: not the same bytes again, %v", lang, err)
		}
	}
	if _, err := testday.WriteSlips(io.Discard, testday.Slips{Words: english}); !errors.Is(err, testday.ErrNoSlips) {
		t.Errorf("nobody: %v", err)
	}
}
