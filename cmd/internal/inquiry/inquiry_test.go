package inquiry

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/workbook"
	"tenback/workbook/roster"
)

// TestAsk holds that each answer is in the file, also when the questions end
// early, and that an answer that is not understood is asked for again.
func TestAsk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "week.xlsx")
	r := &roster.Roster{Path: path, Sheets: []*roster.Sheet{{Name: "8B", HeaderRow: 1,
		Columns: []roster.Column{{Index: 1, Header: "Who", Values: []string{"Ada"}, Filled: 1}, {Index: 2, Header: "Beats", Filled: 9}},
		Rows:    []roster.Row{{Sheet: "8B", Number: 2, Person: roster.Person{Name: "Ada"}}}}},
		Questions: []roster.Question{{Sheet: "8B", Cell: "A1", Header: "Who", What: scoring.Verbatim("who?"), Choices: []roster.Choice{{Meaning: "name"}}},
			{Sheet: "8B", Cell: "B1", Header: "Beats", What: scoring.Verbatim("beats?"), Choices: []roster.Choice{{Meaning: "resting heart rate"}}}}}
	findings := r.Findings([]workbook.Problem{
		{Sheet: "8B", Cell: "C2", Read: "7.1", What: scoring.Verbatim("two readings"), Blocking: true, Answerable: true},
		{Sheet: "8B", Cell: "D2", Read: "9", What: scoring.Verbatim("odd"), Answerable: true}})
	ask := func(typed string) int {
		t.Helper()
		q, err := Of(r, findings, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		n, err := q.Ask(context.Background(), io.Discard, terminal.NewAsker(strings.NewReader(typed), io.Discard))
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	// The fullest column comes first; the end of the input ends the questions.
	if n := ask("banana\n1\n2\n"); n != 2 {
		t.Errorf("%d answers, want 2", n)
	}
	if n := ask("7.10\nq\n"); n != 1 {
		t.Errorf("%d answers, want 1", n)
	}
	if n := ask("right\n"); n != 1 {
		t.Errorf("%d answers, want 1", n)
	}
	answers, err := Answers(path, nil)
	if err != nil {
		t.Fatal(err)
	}
	meanings := map[string]string{}
	for _, c := range answers.Columns {
		meanings[c.Header] = c.Meaning
	}
	if meanings["Beats"] != "resting heart rate" || meanings["Who"] != "ignore" {
		t.Errorf("columns %v", meanings)
	}
	if len(answers.Cells) != 2 || answers.Cells[0].Instead != "7.10" || answers.Cells[0].Person != "Ada" || answers.Cells[1].Instead != "" {
		t.Errorf("cells %+v", answers.Cells)
	}
}
