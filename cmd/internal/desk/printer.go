package desk

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"sync"
	"time"
)

// ParseCommand takes a command apart into the program and its arguments, at
// blanks outside 'single' or "double" quotes. There is no other sign with a
// meaning, and no shell: a backslash is a backslash.
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

// saidMost bounds what is kept of what a command says of its failure.
const saidMost = 400

// grace is how long a command that runs when the desk closes may go on.
const grace = 5 * time.Second

// Printer hands pages to a command, one after another in the order of Hand,
// while the desk goes on.
type Printer struct {
	argv []string
	done func(page string, err error)

	mu     sync.Mutex
	pages  []string
	wake   chan struct{}
	closed chan struct{}
	ended  chan struct{}
}

// NewPrinter makes a printer for a command of at least one word, to which the
// path of each page is added as the last argument. done is called after each,
// by another goroutine.
func NewPrinter(argv []string, done func(page string, err error)) *Printer {
	p := &Printer{argv: argv, done: done, wake: make(chan struct{}, 1), closed: make(chan struct{}), ended: make(chan struct{})}
	go p.work()
	return p
}

// Hand puts a page into the queue.
func (p *Printer) Hand(page string) {
	p.mu.Lock()
	p.pages = append(p.pages, page)
	p.mu.Unlock()
	select {
	case p.wake <- struct{}{}:
	default: // it will look at the queue anyway
	}
}

// Close lets the command that runs come to its end, for some seconds, and gives
// the pages that were not handed over.
func (p *Printer) Close() (left []string) {
	p.mu.Lock()
	left, p.pages = p.pages, nil
	p.mu.Unlock()
	close(p.closed)
	<-p.ended
	return left
}

func (p *Printer) work() {
	defer close(p.ended)
	for {
		for page, more := p.take(); more; page, more = p.take() {
			p.done(page, p.run(page))
		}
		select {
		case <-p.wake:
		case <-p.closed:
			return
		}
	}
}

func (p *Printer) take() (page string, more bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.pages) == 0 {
		return "", false
	}
	page, p.pages = p.pages[0], p.pages[1:]
	return page, true
}

// run hands one page over.
func (p *Printer) run(page string) error {
	ctx, kill := context.WithCancel(context.Background())
	defer kill()
	command := exec.CommandContext(ctx, p.argv[0], append(p.argv[1:len(p.argv):len(p.argv)], page)...)
	command.WaitDelay = time.Second // for what it started and left behind
	said := &head{}
	command.Stderr = said
	if err := command.Start(); err != nil {
		return err
	}
	ended := make(chan struct{})
	defer close(ended)
	go p.hurry(ended, kill)
	err := command.Wait()
	if text := strings.Join(strings.Fields(string(said.text)), " "); err != nil && text != "" {
		err = fmt.Errorf("%w: %s", err, text)
	}
	return err
}

// hurry ends a command that goes on for too long after the desk has closed.
func (p *Printer) hurry(ended <-chan struct{}, kill func()) {
	select {
	case <-ended:
		return
	case <-p.closed:
	}
	select {
	case <-ended:
	case <-time.After(grace):
		kill()
	}
}

// head keeps the beginning of what is written to it.
type head struct{ text []byte }

func (h *head) Write(text []byte) (int, error) {
	h.text = append(h.text, text[:min(saidMost-len(h.text), len(text))]...)
	return len(text), nil
}
