package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// module is a module of which something is in the program.
type module struct {
	Path, Version, Dir string
	Main               bool
	Replace            *module // that the source comes from, if not from Path
}

// modules lists the modules of which something is in the program, on any of the
// systems, by path. The standard library comes last, as the Go project.
func modules(ctx context.Context) ([]module, error) {
	all := map[string]module{}
	for _, p := range platforms {
		cmd := exec.CommandContext(ctx, "go", "list", "-deps", "-json=Module", "tenback/cmd/tenback")
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+p.system, "GOARCH="+p.processor)
		data, err := output(cmd)
		if err != nil {
			return nil, err
		}
		list := json.NewDecoder(bytes.NewReader(data))
		for {
			var pkg struct{ Module *module }
			if err := list.Decode(&pkg); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				return nil, err
			}
			m := pkg.Module
			if m == nil || m.Main {
				continue
			}
			if m.Replace != nil {
				m = m.Replace
			}
			all[m.Path] = *m
		}
	}
	var sorted []module
	for _, path := range slices.Sorted(maps.Keys(all)) {
		sorted = append(sorted, all[path])
	}
	root, err := goOutput(ctx, "env", "GOROOT", "GOVERSION")
	if err != nil {
		return nil, err
	}
	words := strings.Fields(string(root))
	return append(sorted, module{Path: "The Go standard library", Version: words[len(words)-1], Dir: words[0]}), nil
}

// licenceOf gives the texts that a module asks to be handed on.
func (m module) licenceOf() (string, error) {
	entries, err := os.ReadDir(m.Dir)
	if err != nil {
		return "", err
	}
	var texts []string
	for _, e := range entries {
		name := strings.ToLower(e.Name())
		if e.IsDir() || !strings.HasPrefix(name, "licen") && !strings.HasPrefix(name, "copying") && !strings.HasPrefix(name, "notice") {
			continue
		}
		data, err := os.ReadFile(filepath.Join(m.Dir, e.Name()))
		if err != nil {
			return "", err
		}
		texts = append(texts, strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n")))
	}
	if len(texts) == 0 {
		return "", fmt.Errorf("%s %s has no licence text", m.Path, m.Version)
	}
	return strings.Join(texts, "\n\n"), nil
}

// licenceKinds are the licences whose terms are met by handing on their text,
// each with words that only it has.
var licenceKinds = []struct{ name, words string }{
	{"Apache 2.0", "Apache License"},
	{"MIT", "Permission is hereby granted, free of charge"},
	{"BSD", "Redistribution and use in source and binary forms"},
	{"ISC", "Permission to use, copy, modify, and/or distribute"},
	{"Unlicense", "This is free and unencumbered software"},
}

// kindOf names the licence.
func kindOf(text string) (string, bool) {
	flat := strings.Join(strings.Fields(text), " ")
	for _, k := range licenceKinds {
		if strings.Contains(flat, k.words) {
			return k.name, true
		}
	}
	return "", false
}

// thirdParty is the list of all that is in the program and not ours, with the
// texts of the licences.
func thirdParty(ctx context.Context) ([]byte, error) {
	all, err := modules(ctx)
	if err != nil {
		return nil, err
	}
	var list, texts strings.Builder
	for _, m := range all {
		text, err := m.licenceOf()
		if err != nil {
			return nil, err
		}
		kind, ok := kindOf(text)
		if !ok {
			return nil, fmt.Errorf("%s %s has a licence that nobody has looked at yet; read it, then add it to licenceKinds", m.Path, m.Version)
		}
		fmt.Fprintf(&list, "%-42s %-38s %s\n", m.Path, m.Version, kind)
		fmt.Fprintf(&texts, "\n\n%s\n%s %s\n%s\n\n%s\n", strings.Repeat("=", 78), m.Path, m.Version, strings.Repeat("=", 78), text)
	}
	return []byte("What is in tenback and comes from others, with the terms of each.\n\n" + list.String() +
		"\nThe typeface of the pages is Lato, cut into parts: see OFL.txt.\n" + texts.String()), nil
}
