package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// asker puts questions to whoever runs the program.
type asker struct {
	in  *bufio.Reader
	out io.Writer
}

func newAsker(in io.Reader, out io.Writer) *asker { return &asker{bufio.NewReader(in), out} }

// errNoAnswer means that there is nobody who answers.
var errNoAnswer = errors.New("there was no answer")

// ask gives one of the answers, by its first letter or in full.
func (a *asker) ask(ctx context.Context, question string, answers ...string) (string, error) {
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

// line reads a line without holding up a Ctrl-C.
func (a *asker) line(ctx context.Context) (string, error) {
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
			return "", errNoAnswer
		}
		return strings.TrimSpace(r.line), nil
	}
}
