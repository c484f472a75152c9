package main

import (
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var licenceFile = regexp.MustCompile(`(?i)^(licen|copying|notice)`)

// licenceKinds are the licences whose terms are met by passing on their text,
// each with words that only it has.
var licenceKinds = []struct{ name, words string }{
	{"Apache 2.0", "Apache License"},
	{"MIT", "Permission is hereby granted, free of charge"},
	{"BSD", "Redistribution and use in source and binary forms"},
	{"ISC", "Permission to use, copy, modify, and/or distribute"},
	{"Unlicense", "This is free and unencumbered software"},
}

func kindsOf(text string) (kinds []string) {
	flat := strings.Join(strings.Fields(text), " ")
	for _, k := range licenceKinds {
		if strings.Contains(flat, k.words) {
			kinds = append(kinds, k.name)
		}
	}
	return kinds
}

// thirdParty lists the modules in the program on any system, and the Go project,
// with the texts of their licences. A module without a known licence is an error.
func thirdParty(ctx context.Context) ([]byte, error) {
	folders := map[string]map[string]bool{} // of packages and their parents, by module
	for _, p := range platforms {
		lines, err := output(ctx, p, "go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{with .Replace}}{{.Path}} {{.Version}}{{else}}{{.Path}} {{.Version}}{{end}}\t{{.Dir}}\t{{$.Dir}}{{end}}{{end}}", "tenback/cmd/tenback")
		if err != nil {
			return nil, err
		}
		for line := range strings.Lines(string(lines)) {
			words := strings.Split(strings.TrimSpace(line), "\t")
			if len(words) != 3 {
				continue // the standard library or ours
			}
			if folders[words[0]] == nil {
				folders[words[0]] = map[string]bool{words[1]: true}
			}
			for dir := words[2]; len(dir) > len(words[1]); dir = filepath.Dir(dir) {
				folders[words[0]][dir] = true
			}
		}
	}
	env, err := output(ctx, "", "go", "env", "GOVERSION", "GOROOT")
	if err != nil {
		return nil, err
	}
	version, root, _ := strings.Cut(strings.TrimSpace(string(env)), "\n")
	folders["The Go standard library "+version] = map[string]bool{root: true}

	var list, texts strings.Builder
	for _, module := range slices.Sorted(maps.Keys(folders)) {
		var kinds []string
		for _, dir := range slices.Sorted(maps.Keys(folders[module])) {
			entries, err := os.ReadDir(dir)
			if err != nil {
				return nil, err
			}
			for _, e := range entries {
				if e.IsDir() || !licenceFile.MatchString(e.Name()) || filepath.Ext(e.Name()) == ".go" {
					continue
				}
				data, err := os.ReadFile(filepath.Join(dir, e.Name()))
				if err != nil {
					return nil, err
				}
				kinds = append(kinds, kindsOf(string(data))...)
				line := strings.Repeat("=", 78)
				fmt.Fprintf(&texts, "\n\n%s\n%s: %s\n%s\n\n%s\n", line, module, filepath.Base(dir)+"/"+e.Name(), line, strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n")))
			}
		}
		if len(kinds) == 0 {
			return nil, fmt.Errorf("%s has no licence of a known kind: read it, then add it to licenceKinds", module)
		}
		fmt.Fprintf(&list, "%-80s %s\n", module, strings.Join(slices.Compact(slices.Sorted(slices.Values(kinds))), ", "))
	}
	return []byte("Modules in tenback by others, with the terms of each.\n\n" + list.String() +
		"\nThe typeface of the pages is Lato, cut into parts: see OFL.txt.\n" + texts.String()), nil
}
