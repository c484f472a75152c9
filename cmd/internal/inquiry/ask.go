package inquiry

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/workbook/questions"
)

// errEnough ends the questions.
var errEnough = errors.New("no more questions")

// Ask asks the open questions one by one and saves each answer at once. It returns
// the number of answers.
func (q *Inquiry) Ask(ctx context.Context, out io.Writer, asker *terminal.Asker) (answered int, err error) {
	open := 0
	for i := range q.book.Columns {
		if q.book.Columns[i].Open() {
			open++
		}
	}
	for i := range q.book.Cells {
		if q.book.Cells[i].Open() {
			open++
		}
	}
	if open == 0 {
		fmt.Fprintln(out, "There is nothing to ask.")
		return 0, nil
	}
	fmt.Fprintf(out, "%s. Enter skips a question, q ends.\n", terminal.Count(open, "question", "questions"))
	asked := 0
	next := func(ask func(number string) (bool, error)) error {
		asked++
		done, err := ask(fmt.Sprintf("%d of %d", asked, open))
		if err == nil && done {
			answered++
			err = q.Save()
		}
		return err
	}
	for i := range q.book.Columns {
		if c := &q.book.Columns[i]; c.Open() && err == nil {
			err = next(func(number string) (bool, error) { return askColumn(ctx, out, asker, number, c) })
		}
	}
	for i := range q.book.Cells {
		if c := &q.book.Cells[i]; c.Open() && err == nil {
			err = next(func(number string) (bool, error) { return askCell(ctx, out, asker, number, c) })
		}
	}
	if errors.Is(err, errEnough) || errors.Is(err, terminal.ErrNoAnswer) {
		err = nil
	}
	return answered, err
}

// askColumn asks until the answer is understood.
func askColumn(ctx context.Context, out io.Writer, asker *terminal.Asker, number string, c *questions.Column) (bool, error) {
	fmt.Fprintf(out, "\n%s  %s, column %s  %q  %s\n  %s\n", number, c.Sheet, c.Letter, c.Header, strings.Join(c.Values, ", "), strings.ReplaceAll(c.Why, "\n", "\n  "))
	choices := append(append([]string(nil), c.Choices...), questions.Ignored)
	for i, choice := range choices {
		fmt.Fprintf(out, "    %d  %s\n", i+1, choice)
	}
	for {
		text, err := line(ctx, asker, "  What does it hold? A number, or any known header: ")
		if err != nil || text == "" {
			return false, err
		}
		if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(choices) {
			text = choices[n-1]
		}
		if err := c.Take(text); err != nil {
			fmt.Fprintf(out, "  %v\n", err)
			continue
		}
		return true, nil
	}
}

func askCell(ctx context.Context, out io.Writer, asker *terminal.Asker, number string, c *questions.Cell) (bool, error) {
	fmt.Fprintf(out, "\n%s  %s!%s  %q  %s\n  %s\n", number, c.Sheet, c.Cell, c.Was, c.Person, c.What)
	if c.Fix != "" {
		fmt.Fprintf(out, "  → %s\n", c.Fix)
	}
	prompt := "  What should be read instead? "
	if c.MayBeRight {
		prompt = "  What should be read instead? Type right if it is right as it is: "
	}
	text, err := line(ctx, asker, prompt)
	switch {
	case err != nil || text == "":
		return false, err
	case c.MayBeRight && strings.EqualFold(text, "right"):
		c.Right = true
	default:
		c.Answer = text
	}
	return true, nil
}

// line returns what was typed; q ends the questions.
func line(ctx context.Context, asker *terminal.Asker, prompt string) (string, error) {
	text, err := asker.Line(ctx, prompt)
	if err == nil && strings.EqualFold(text, "q") {
		err = errEnough
	}
	return text, err
}
