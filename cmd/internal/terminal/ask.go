package terminal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Asker asks the user questions.
type Asker struct {
	in  *bufio.Reader
	out io.Writer
}

// NewAsker returns an Asker that prints to out and reads lines from in.
func NewAsker(in io.Reader, out io.Writer) *Asker { return &Asker{bufio.NewReader(in), out} }

// ErrNoAnswer reports that the input ended before an answer.
var ErrNoAnswer = errors.New("there was no answer")

// Ask returns one of the answers, typed in full or shortened from the end.
func (a *Asker) Ask(ctx context.Context, question string, answers ...string) (string, error) {
	for {
		fmt.Fprintf(a.out, "%s (%s) ", question, strings.Join(answers, "/"))
		line, err := a.line(ctx)
		if err != nil {
			fmt.Fprintln(a.out)
			return "", err
		}
		for _, answer := range answers {
			if line != "" && strings.HasPrefix(answer, strings.ToLower(line)) {
				return answer, nil
			}
		}
	}
}

// Line asks a question that any line answers.
func (a *Asker) Line(ctx context.Context, question string) (string, error) {
	fmt.Fprint(a.out, question)
	line, err := a.line(ctx)
	if err != nil {
		fmt.Fprintln(a.out)
	}
	return line, err
}

// line reads a line; it returns early when ctx is cancelled.
func (a *Asker) line(ctx context.Context) (string, error) {
	type read struct {
		line string
		err  error
	}
	typed := make(chan read, 1)
	go func() {
		line, err := a.in.ReadString('\n')
		typed <- read{line, err}
	}()
	select {
	case <-ctx.Done():
		return "", ctx.Err()
	case r := <-typed:
		if r.err != nil && strings.TrimSpace(r.line) == "" {
			return "", ErrNoAnswer
		}
		return strings.TrimSpace(r.line), nil
	}
}
