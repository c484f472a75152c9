package opc

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// A file that is no workbook is called what it is, with what to do.
func TestForeign(t *testing.T) {
	for text, why := range map[string]string{
		"%PDF-1.7\n":               "a PDF",
		"\x89PNG\r\n\x1a\n":        "a picture",
		"\xff\xd8\xff\xe0..JFIF":   "a picture",
		"{\\rtf1\\ansi":            "a text document",
		"\x1f\x8b\x08":             "a packed archive",
		"\x09\x08\x10\x00\x00\x05": "a very old .xls file",
		"\xef\xbb\xbf\r\n<!DOCTYPE html><HTML><body><table>":                                                     "a web page",
		"<table><tr><td>Name":                                                                                    "a web page",
		"\xff\xfe<\x00h\x00t\x00m\x00l\x00>\x00":                                                                 "a web page",
		`<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet">`:                   "an XML spreadsheet of 2003",
		`<?xml version="1.0"?><office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0">`: "a flat OpenDocument file",
		`<?xml version="1.0"?><note/>`:                                                                           "an XML file",
		"Name\tAge\n":                                                                                            "a text file",
		"\x00\x01\x02\x03":                                                                                       "not a workbook",
		"PK\x03\x04":                                                                                             "damaged or was not copied to its end",
	} {
		_, err := Open(bytes.NewReader([]byte(text)), int64(len(text)), roomy)
		var known *Error
		if !errors.As(err, &known) || !strings.Contains(known.Why, why) || known.Do == "" {
			t.Errorf("%q: %v, want %q", text, err, why)
		}
	}
	for _, c := range []struct {
		parts []entry
		why   string
	}{
		{[]entry{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", ""}}, "give it the ending .ods"},
		{[]entry{{"mimetype", "application/vnd.oasis.opendocument.text"}, {"content.xml", ""}}, "no spreadsheet"},
		{[]entry{{"word/document.xml", ""}}, "a text document"},
		{[]entry{{"ppt/presentation.xml", ""}}, "a presentation"},
		{[]entry{{"Index/Document.iwa", ""}}, "a .numbers file"},
		{[]entry{{"week/Roster.XLSX", ""}}, "a zip archive with week/Roster.XLSX in it"},
		{[]entry{{"photo.png", ""}}, "a zip archive but no workbook"},
	} {
		if err := open(t, roomy, c.parts...).NoWorkbook(); !errors.Is(err, ErrNotWorkbook) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%v: %v, want %q", c.parts, err, c.why)
		}
	}
}
