package starter

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring/fieldtests"
	"tenback/workbook"
	"tenback/workbook/roster"
)

func starterBytes(t *testing.T, s roster.Setting) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, s, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestParseSetting(t *testing.T) {
	for _, s := range workbook.Settings() {
		if got, err := workbook.ParseSetting(" " + strings.ToUpper(string(s))); got != s || err != nil {
			t.Errorf("%q reads as %q, %v", s, got, err)
		}
	}
	if _, err := workbook.ParseSetting("prison"); err == nil {
		t.Error("a setting that is none was read")
	}
}

// Nobody adds a test and forgets where it is offered.
func TestEveryTestIsInASetting(t *testing.T) {
	for _, test := range fieldtests.All() {
		in := slices.ContainsFunc(workbook.Settings(), func(s roster.Setting) bool { return slices.Contains(testsOf(s), test) })
		if in != offered(test) {
			t.Errorf("%s: in a starter roster %v, want %v", test.ID, in, offered(test))
		}
	}
}

func TestStarter(t *testing.T) {
	for _, s := range workbook.Settings() {
		f, err := excelize.OpenReader(bytes.NewReader(starterBytes(t, s)))
		if err != nil {
			t.Fatal(err)
		}
		rows, err := f.GetRows("People")
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) != 1 {
			t.Errorf("%s: %d rows, want only the header", s, len(rows))
		}
		for _, header := range []string{"Name", "ID", wordsOf(nil).Say(s.GroupKey(), nil), "Sex", "Date of birth", "Test date", "Body mass (kg)", "Resting heart rate (beats/min)"} {
			if !slices.Contains(rows[0], header) {
				t.Errorf("%s: no column %q", s, header)
			}
		}
		for i, h := range rows[0] {
			if slices.Index(rows[0], h) != i {
				t.Errorf("%s: column %q twice", s, h)
			}
		}
		for _, test := range testsOf(s) {
			if !slices.Contains(rows[0], test.Results[0].Column) {
				t.Errorf("%s: no column for the %s", s, test.Name)
			}
		}
		comments, err := f.GetComments("People")
		if err != nil {
			t.Fatal(err)
		}
		validations, err := f.GetDataValidations("People")
		if err != nil {
			t.Fatal(err)
		}
		if len(comments) != len(rows[0]) || len(validations) != len(rows[0]) {
			t.Errorf("%s: %d columns, %d comments, %d validations", s, len(rows[0]), len(comments), len(validations))
		}
		guide, err := f.GetRows("Guide")
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		for _, row := range guide {
			text.WriteString(strings.Join(row, "\n") + "\n")
		}
		for _, test := range testsOf(s) {
			for _, step := range test.Protocol {
				if !strings.Contains(text.String(), step) {
					t.Errorf("%s: the guide does not tell how to run the %s: %q", s, test.Name, step)
				}
			}
			for _, caution := range test.Cautions() {
				if !strings.Contains(text.String(), caution) {
					t.Errorf("%s: the guide leaves out %q of the %s", s, caution, test.Name)
				}
			}
		}
		f.Close()
	}
}

// A spreadsheet refuses longer messages, or the whole file.
func TestStarterMessagesFit(t *testing.T) {
	for _, s := range workbook.Settings() {
		st := &starter{sheetWords: wordsOf(nil)}
		for _, c := range st.columns(s) {
			v, err := st.validation(&c, "A")
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range []struct {
				p    *string
				most int
			}{{v.PromptTitle, maxMessageTitle}, {v.Prompt, maxMessage}, {v.ErrorTitle, maxMessageTitle}, {v.Error, maxMessage}} {
				if text.p != nil && utf8.RuneCountInString(*text.p) > text.most {
					t.Errorf("%s, %s: %d characters in %q", s, c.header, utf8.RuneCountInString(*text.p), *text.p)
				}
			}
			if v.Prompt != nil && strings.HasSuffix(*v.Prompt, "…") {
				t.Errorf("%s, %s: the message is cut short: %q", s, c.header, *v.Prompt)
			}
		}
	}
}
