package ooxml

import (
	"encoding/xml"
	"strings"
	"unicode"
)

// appPart is where a program says that it wrote the file (ECMA-376 part 1, 22.2).
const appPart = "docProps/app.xml"

// maxProgram bounds the length of a program's name.
const maxProgram = 60

// Program is the program that says it wrote the file, and its version; empty if
// none does.
func (b *Book) Program() string {
	part := b.pkg.Part(appPart)
	if part == nil {
		return ""
	}
	data, err := b.pkg.Load(part)
	if err != nil {
		return ""
	}
	var app struct {
		Application string
		AppVersion  string
	}
	if err := xml.Unmarshal(data, &app); err != nil {
		return ""
	}
	text := strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, strings.Join(strings.Fields(app.Application+" "+app.AppVersion), " "))
	if runes := []rune(text); len(runes) > maxProgram {
		text = string(runes[:maxProgram])
	}
	return text
}

// PartNames lists the files in the zip.
func (b *Book) PartNames() []string {
	var names []string
	for _, p := range b.pkg.Parts {
		names = append(names, p.Name)
	}
	return names
}
