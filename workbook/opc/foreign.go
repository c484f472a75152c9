package opc

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// What to do with files that are no workbook.
const (
	doUnpack = "unpack it and choose the workbook in it"
	doCopy   = "copy its table into a new sheet of your spreadsheet program and save that as .xlsx"
	doOrigin = "ask for the spreadsheet that it was made from"
)

// foreign holds the beginnings of files that are often taken for workbooks.
var foreign = []struct{ begin, why, do string }{
	{"%PDF-", "this is a PDF, not a workbook", doOrigin},
	{"\x89PNG", "this is a picture, not a workbook", doOrigin},
	{"\xff\xd8\xff", "this is a picture, not a workbook", doOrigin},
	{"GIF8", "this is a picture, not a workbook", doOrigin},
	{"{\\rtf", "this is a text document, not a workbook", doCopy},
	{"\x1f\x8b", "this is a packed archive, not a workbook", doUnpack},
	{"7z\xbc\xaf", "this is a packed archive, not a workbook", doUnpack},
	{"Rar!", "this is a packed archive, not a workbook", doUnpack},
	{"\x09\x08", "this is a very old .xls file", DoResave},
	{"\x09\x04", "this is a very old .xls file", DoResave},
	{"\x09\x02", "this is a very old .xls file", DoResave},
	{"\x09\x00", "this is a very old .xls file", DoResave},
}

// markup holds what the beginning of a file of markup contains, in lower case. The
// first that fits counts.
var markup = []struct{ contains, why string }{
	{"urn:schemas-microsoft-com:office:spreadsheet", "this is an XML spreadsheet of 2003, whatever its ending says"},
	{"urn:oasis:names:tc:opendocument", "this is a flat OpenDocument file"},
	{"<html", "this is a web page, whatever its ending says"},
	{"<table", "this is a web page, whatever its ending says"},
	{"<?xml", "this is an XML file, not a workbook"},
}

// notZip returns why a file that begins with head is no workbook.
func notZip(head []byte, err error) error {
	if bytes.HasPrefix(head, []byte("PK")) {
		return &Error{Kind: ErrDamaged, Why: "the file is damaged or was not copied to its end", Do: DoCopy, Cause: err}
	}
	for _, f := range foreign {
		if strings.HasPrefix(string(head), f.begin) {
			return &Error{Kind: ErrNotWorkbook, Why: f.why, Do: f.do}
		}
	}
	text := bytes.TrimLeft(bytes.TrimPrefix(bytes.ReplaceAll(head, []byte{0}, nil), []byte("\xEF\xBB\xBF")), "\xff\xfe \t\r\n")
	if bytes.HasPrefix(text, []byte("<")) {
		for _, m := range markup {
			if bytes.Contains(bytes.ToLower(text), []byte(m.contains)) {
				return &Error{Kind: ErrNotWorkbook, Why: m.why, Do: DoResave}
			}
		}
	}
	if utf8.Valid(head[:max(0, len(head)-utf8.UTFMax)]) && !bytes.ContainsRune(head, 0) {
		return &Error{Kind: ErrNotWorkbook, Why: "this is a text file, not a workbook", Do: "open it in your spreadsheet program and save it as .xlsx, or give it the ending .csv"}
	}
	return &Error{Kind: ErrNotWorkbook, Why: "this is not a workbook", Do: DoChoose}
}

// NoWorkbook returns why a zip holds no workbook.
func (p *Package) NoWorkbook() error {
	no := func(why, do string) error { return &Error{Kind: ErrNotWorkbook, Why: why, Do: do} }
	if kind := p.Part("mimetype"); kind != nil {
		name, err := p.Load(kind)
		switch {
		case err != nil:
			return err
		case bytes.Contains(name, []byte("opendocument.spreadsheet")):
			return no("this is an OpenDocument spreadsheet with another ending", "give it the ending .ods")
		case bytes.Contains(name, []byte("opendocument")):
			return no("this is an OpenDocument file, but no spreadsheet", doCopy)
		}
	}
	for _, part := range p.Parts {
		key := Key(part.Name)
		switch {
		case strings.HasPrefix(key, "word/"):
			return no("this is a text document, not a workbook", doCopy)
		case strings.HasPrefix(key, "ppt/"):
			return no("this is a presentation, not a workbook", doCopy)
		case strings.HasSuffix(key, ".iwa"), key == "index.zip":
			return no("this is a .numbers file or one of its kin", "in the program that made it, export it as .xlsx")
		}
		for _, ending := range []string{".xlsx", ".xlsm", ".xls", ".ods", ".csv"} {
			if strings.HasSuffix(key, ending) {
				return no("this is a zip archive with "+part.Name+" in it", doUnpack)
			}
		}
	}
	return no("the file is a zip archive but no workbook", DoChoose)
}
