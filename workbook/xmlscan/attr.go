package xmlscan

import (
	"bytes"
	"strings"

	"tenback/workbook/opc"
)

// IsSpace reports whether c is XML white space.
func IsSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

// Clip shortens a name from the file for an error message.
func Clip(b []byte) string {
	if len(b) > 40 {
		b = b[:40]
	}
	return strings.ToValidUTF8(string(b), "?")
}

// Attr is one attribute in its raw form. From and To delimit the whole attribute,
// with the white space before it, in the bytes it was found in.
type Attr struct {
	Name, Value []byte
	From, To    int
}

// NextAttr returns the first attribute in b[at:]; ok is false if there is none.
func NextAttr(b []byte, at int) (a Attr, ok bool, err error) {
	a.From = at
	for at < len(b) && IsSpace(b[at]) {
		at++
	}
	if at == len(b) {
		return a, false, nil
	}
	begin := at
	for at < len(b) && b[at] != '=' && !IsSpace(b[at]) && b[at] != '/' && b[at] != '"' && b[at] != '\'' {
		at++
	}
	a.Name = b[begin:at]
	for at < len(b) && IsSpace(b[at]) {
		at++
	}
	if at == len(b) || b[at] != '=' || len(a.Name) == 0 {
		return a, false, opc.DamagedXML("the XML has an attribute without a value")
	}
	at++
	for at < len(b) && IsSpace(b[at]) {
		at++
	}
	if at == len(b) || b[at] != '"' && b[at] != '\'' {
		return a, false, opc.DamagedXML("the XML has an attribute value without quotes")
	}
	n := bytes.IndexByte(b[at+1:], b[at])
	if n < 0 {
		return a, false, opc.DamagedXML("the XML has an attribute value without an end")
	}
	a.Value = b[at+1 : at+1+n]
	a.To = at + n + 2
	return a, true, nil
}

// AttrValue returns the decoded value of the attribute of that exact name.
func AttrValue(attrs []byte, name string) (value string, ok bool, err error) {
	for at := 0; ; {
		a, ok, err := NextAttr(attrs, at)
		if err != nil || !ok {
			return "", false, err
		}
		if string(a.Name) == name {
			v, err := Value(a.Value)
			return string(v), err == nil, err
		}
		at = a.To
	}
}

// TagAttrs returns the bytes between the name and the end of a start tag.
func TagAttrs(tag []byte) []byte {
	end := len(tag) - 1
	if tag[end-1] == '/' {
		end--
	}
	i := 1
	for i < end && !IsSpace(tag[i]) && tag[i] != '/' {
		i++
	}
	return tag[i:end]
}
