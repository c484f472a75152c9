package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"tenback/testdata/demo"
)

// file is one file of an archive.
type file struct {
	name       string // with slashes
	data       []byte
	executable bool
}

// goOutput runs the go command and gives what it prints.
func goOutput(ctx context.Context, args ...string) ([]byte, error) {
	return output(exec.CommandContext(ctx, "go", args...))
}

func output(cmd *exec.Cmd) ([]byte, error) {
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("%s: %w\n%s", strings.Join(cmd.Args, " "), err, errs.String())
	}
	return out.Bytes(), nil
}

// build compiles the program for a system. Neither the folder nor the state of
// the repository goes into it, so that everybody gets the same bytes.
func build(ctx context.Context, p platform, to string) error {
	cmd := exec.CommandContext(ctx, "go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", to, "tenback/cmd/tenback")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+p.system, "GOARCH="+p.processor, "GOFLAGS=", "GOAMD64=v1")
	_, err := output(cmd)
	return err
}

// commonFiles are those that every archive holds besides the program.
func commonFiles(ctx context.Context, root, work string) ([]file, error) {
	here := filepath.Join(work, "here")
	if _, err := goOutput(ctx, "build", "-o", here, "tenback/cmd/tenback"); err != nil {
		return nil, err
	}
	var all []file
	for _, name := range []string{"README.md", "LICENSE", "pdfreport/kit/fonts/OFL.txt"} {
		data, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
		if err != nil {
			return nil, err
		}
		all = append(all, file{name: filepath.Base(name), data: data})
	}
	licences, err := thirdParty(ctx)
	if err != nil {
		return nil, err
	}
	all = append(all, file{name: "THIRD-PARTY.txt", data: licences})
	all = append(all, file{name: "sample-roster.xlsx", data: demo.Roster})
	for _, made := range []struct {
		name string
		args []string
	}{
		{"tenback.1", []string{"manual"}},
		{"completions/tenback.bash", []string{"completion", "bash"}},
		{"completions/_tenback", []string{"completion", "zsh"}},
		{"completions/tenback.fish", []string{"completion", "fish"}},
	} {
		data, err := output(exec.CommandContext(ctx, here, made.args...))
		if err != nil {
			return nil, err
		}
		all = append(all, file{name: made.name, data: data})
	}
	return all, nil
}
