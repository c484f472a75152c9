package desk

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"time"
)

// ParseCommand splits a command into the program and its arguments, at blanks
// outside 'single' or "double" quotes. No other character is special, because
// there is no shell: a backslash is a backslash.
func ParseCommand(text string) ([]string, error) {
	var argv []string
	var word strings.Builder
	var quote rune
	begun := false
	for _, r := range text {
		switch {
		case quote != 0 && r == quote:
			quote = 0
		case quote == 0 && (r == '\'' || r == '"'):
			quote, begun = r, true
		case quote == 0 && (r == ' ' || r == '\t' || r == '\n' || r == '\r'):
			if begun {
				argv = append(argv, word.String())
				word.Reset()
				begun = false
			}
		default:
			word.WriteRune(r)
			begun = true
		}
	}
	if begun {
		argv = append(argv, word.String())
	}
	switch {
	case quote != 0:
		return nil, fmt.Errorf("%q has a %c without its other half", text, quote)
	case len(argv) == 0:
		return nil, errors.New("it names no program")
	}
	return argv, nil
}

// saidMost bounds the bytes kept of a command's error output.
const saidMost = 400

// grace is how long a running command may go on after the desk has closed.
const grace = 5 * time.Second

// queueMost bounds the pages that wait for the command. Hand blocks beyond it.
const queueMost = 1 << 16

// Printer hands pages to a command, one after another, while the desk goes on.
type Printer struct {
	argv   []string
	done   func(page string, err error)
	queue  chan string
	closed chan struct{}
	ended  chan struct{}
	ctx    context.Context
	kill   func()
}

// NewPrinter returns a printer for a command of at least one word, to which the
// path of each page is added as the last argument. It calls done after each page,
// from another goroutine.
func NewPrinter(argv []string, done func(page string, err error)) *Printer {
	p := &Printer{argv: argv, done: done, queue: make(chan string, queueMost), closed: make(chan struct{}), ended: make(chan struct{})}
	p.ctx, p.kill = context.WithCancel(context.Background())
	go p.work()
	return p
}

// Hand queues a page.
func (p *Printer) Hand(page string) { p.queue <- page }

// Close lets the running command finish within grace, and returns the pages still
// in the queue.
func (p *Printer) Close() (left []string) {
	close(p.closed)
	timer := time.AfterFunc(grace, p.kill)
	<-p.ended
	timer.Stop()
	p.kill()
	for len(p.queue) > 0 {
		left = append(left, <-p.queue)
	}
	return left
}

func (p *Printer) work() {
	defer close(p.ended)
	for {
		select {
		case <-p.closed:
			return
		default: // closed comes before the queue
		}
		select {
		case page := <-p.queue:
			p.done(page, p.run(page))
		case <-p.closed:
			return
		}
	}
}

// run calls the command with a page.
func (p *Printer) run(page string) error {
	command := exec.CommandContext(p.ctx, p.argv[0], append(p.argv[1:len(p.argv):len(p.argv)], page)...)
	command.WaitDelay = time.Second // for its child processes
	said := &head{}
	command.Stderr = said
	err := command.Run()
	if text := strings.Join(strings.Fields(string(said.text)), " "); err != nil && text != "" {
		err = fmt.Errorf("%w: %s", err, text)
	}
	return err
}

// head keeps the first bytes written to it.
type head struct{ text []byte }

func (h *head) Write(text []byte) (int, error) {
	h.text = append(h.text, text[:min(saidMost-len(h.text), len(text))]...)
	return len(text), nil
}
