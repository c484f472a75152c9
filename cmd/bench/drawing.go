package main

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"os"
	"regexp"
	"strconv"
	"strings"
)

// piece is an operator of a page's content with its numbers, and its text or the
// name of its font.
type piece struct {
	op      string
	numbers []float64
	text    string
}

// filler stands for the words of a page, whose codes depend on its fonts.
var filler = strings.Repeat("The quick walk to the harbour took fourteen minutes; ", 20)

var (
	stream = regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`)
	token  = regexp.MustCompile(`\((?:[^\\)]|\\.)*\)|[^\s()\[\]]+`)
)

// readPages returns the pieces of each page of a report, so that the bare program
// can draw as much without working out what to say or where.
func readPages(path string) (pages [][]piece, err error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	for _, m := range stream.FindAllSubmatch(data, -1) {
		z, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(z)
		if err == nil && bytes.Contains(content, []byte(") Tj ET")) {
			pages = append(pages, pieces(string(content)))
		}
	}
	if len(pages) == 0 {
		return nil, fmt.Errorf("no page found in %s", path)
	}
	return pages, nil
}

func pieces(content string) (all []piece) {
	var p piece
	for _, t := range token.FindAllString(content, -1) {
		x, err := strconv.ParseFloat(t, 64)
		switch {
		case err == nil:
			p.numbers = append(p.numbers, x)
		case t[0] == '(':
			p.text = filler[:min(len(filler), len(t)-2)]
		case t[0] == '/':
			p.text = t
		default:
			p.op = t
			all = append(all, p)
			p = piece{}
		}
	}
	return all
}
