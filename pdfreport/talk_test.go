package pdfreport_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/testday"
	"tenback/templates"
)

// talkOf returns a list of people, one of three with more than fits.
func talkOf(n int, words *templates.Set) testday.Talk {
	t := testday.Talk{Roster: "fitness week.xlsx", Words: words, Program: "tenback test"}
	for i := range n {
		p := testday.Talked{Sheet: "Class 8B", Cells: "G7, K7", Name: "Ida Brook", Group: "Harbour team", Advice: "A clinician first", Reasons: []string{"Symptoms: “fainted on lap 3”"}}
		if i%3 == 1 {
			p.Name, p.Outcome = strings.Repeat("Long Name-of-Person ", 9), strings.Repeat("asked at length and not settled; ", 30)
			for range 30 {
				p.Reasons = append(p.Reasons, strings.Repeat("a very long note ", 40))
			}
		}
		t.People = append(t.People, p)
	}
	return t
}

func talkPDF(t *testing.T, talk testday.Talk) ([]byte, kit.Report) {
	t.Helper()
	var out bytes.Buffer
	report, err := testday.WriteTalk(&out, talk)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), report
}

// TestTalkList holds that each page is marked as confidential, that nothing leaves
// it, and that no page of it can pass for a person's page.
func TestTalkList(t *testing.T) {
	talk := talkOf(40, english)
	for _, talk.Paper = range []kit.Paper{kit.A4, kit.Letter} {
		pdf, report := talkPDF(t, talk)
		checkStructure(t, "talk", pdf)
		height, _ := talk.Paper.Size() // landscape
		marks := map[int]bool{}
		for _, op := range extract(t, pdf) {
			if op.text == "Confidential" {
				marks[op.page] = true
			}
			if op.y < 12 || op.y > height-12 {
				t.Errorf("page %d: %q at height %.0f", op.page, op.text, op.y)
			}
		}
		if len(marks) != report.Pages || report.Pages < 5 {
			t.Errorf("%d of %d pages are marked", len(marks), report.Pages)
		}
		if _, err := kit.ReadKey(pdf); !errors.Is(err, kit.ErrNoKey) {
			t.Errorf("the list has a key: %v", err)
		}
	}
	if _, err := testday.WriteTalk(&bytes.Buffer{}, testday.Talk{Words: english}); !errors.Is(err, testday.ErrNobodyListed) {
		t.Errorf("nobody listed: %v", err)
	}
	pdf, _ := talkPDF(t, talkOf(1, english))
	compareGolden(t, "talk", pdf)
}
