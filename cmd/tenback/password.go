package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"tenback/cmd/internal/inquiry"
	"tenback/cmd/internal/terminal"
	"tenback/workbook"
	"tenback/workbook/source"
)

// passwordVariable is the environment variable with the password of the roster.
const passwordVariable = "TENBACK_PASSWORD"

// passwordOf returns a function for a roster's password, nil if there is none. The
// function asks once.
func passwordOf(c *cli.Context, path string) func() (string, error) {
	const asked = "password"
	if !c.Bool(asked) {
		return passwordFromEnvironment()
	}
	return func() (string, error) {
		if known, ok := c.App.Metadata[asked].(string); ok {
			return known, nil
		}
		password, err := askPassword(c.Context, c.App.Reader, c.App.ErrWriter, filepath.Base(path), passwordVariable)
		if err == nil {
			c.App.Metadata[asked] = password
		}
		return password, err
	}
}

func passwordFromEnvironment() func() (string, error) {
	password := os.Getenv(passwordVariable)
	if password == "" {
		return nil
	}
	return func() (string, error) { return password, nil }
}

// askPassword reads a password from the terminal without echo; variable is the
// environment variable to suggest.
func askPassword(ctx context.Context, in io.Reader, errs io.Writer, of, variable string) (string, error) {
	file, ok := in.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return "", terminal.Hinted(errors.New("there is no terminal to ask for the password"), "set the environment variable "+variable)
	}
	fd := int(file.Fd())
	state, err := term.GetState(fd)
	if err != nil {
		return "", fmt.Errorf("the terminal cannot be read: %w", err)
	}
	fmt.Fprintf(errs, "Password of %s: ", of)
	type answer struct {
		password []byte
		err      error
	}
	typed := make(chan answer, 1)
	go func() {
		password, err := term.ReadPassword(fd)
		typed <- answer{password, err}
	}()
	select {
	case <-ctx.Done():
		_ = term.Restore(fd, state) // ReadPassword still waits with the echo off
		fmt.Fprintln(errs)
		return "", ctx.Err()
	case a := <-typed:
		fmt.Fprintln(errs)
		if a.err != nil {
			return "", fmt.Errorf("the password cannot be read: %w", a.err)
		}
		return string(a.password), nil
	}
}

// openRoster reads a roster with the answers beside it; its error says how to give
// a missing password.
func openRoster(path string, reading workbook.ReadOptions) (*workbook.Roster, error) {
	var err error
	if reading.Answers, err = inquiry.Answers(path, reading.Password); err != nil {
		return nil, withPasswordHint(err)
	}
	roster, err := workbook.Open(path, reading)
	if errors.Is(err, source.ErrNoHeader) {
		return nil, terminal.Hinted(err, "tenback check "+terminal.Argument(path)+" shows the columns and asks about them")
	}
	return roster, withPasswordHint(err)
}

// withPasswordHint adds how to give a missing password.
func withPasswordHint(err error) error {
	if errors.Is(err, source.ErrLocked) {
		return terminal.Hinted(err, "--password asks for it; without a terminal put it into the environment variable "+passwordVariable)
	}
	return err
}
