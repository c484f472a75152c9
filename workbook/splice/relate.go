package splice

import (
	"fmt"
	"io"
	"net/url"
	"path"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Parts of the package point at each other in lists of relationships, and one
// list gives the type of each part. Both only grow here.

const (
	typesPart        = "[content_types].xml" // as a part key
	typeComments     = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
	typeVML          = "application/vnd.openxmlformats-officedocument.vmlDrawing"
	newRelationships = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>`
)

// appendChild adds an element at the end of a document's root, in the root's
// own namespace.
func appendChild(doc []byte, element, attrs string) ([]byte, error) {
	s := xmlscan.OfBytes(doc)
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return nil, damaged("the XML has no end")
		}
		if err != nil {
			return nil, err
		}
		if s.Level != 1 || kind != xmlscan.EndTag && kind != xmlscan.EmptyTag {
			continue
		}
		from, to := s.Offset(), s.Offset()+len(s.Raw())
		name := string(s.Name)
		prefix := name[:strings.IndexByte(name, ':')+1]
		child := "<" + prefix + element + " " + attrs + "/>"
		if kind == xmlscan.EmptyTag {
			return splice(doc, from, to, string(opened(s.Raw()))+child+"</"+name+">"), nil
		}
		return splice(doc, from, from, child), nil
	}
}

// content is a part as it will be, as far as the plan has come.
func (pl *plan) content(pt *part) ([]byte, error) {
	if data, ok := pl.small[pt]; ok {
		return data, nil
	}
	return pl.pkg.Load(pt)
}

func (pl *plan) appendTo(pt *part, element, attrs string) error {
	data, err := pl.content(pt)
	if err == nil {
		data, err = appendChild(data, element, attrs)
	}
	if err != nil {
		return inPart(err, pt.Name)
	}
	pl.small[pt] = data
	return nil
}

// freeName is the first name of a numbered part that no part has.
func (pl *plan) freeName(dir, base, ext string) string {
	for n := 1; ; n++ {
		name := path.Join(dir, fmt.Sprintf("%s%d%s", base, n, ext))
		taken := pl.pkg.Part(name) != nil
		for _, e := range pl.extra {
			taken = taken || opc.Key(e.name) == opc.Key(name)
		}
		if !taken {
			return name
		}
	}
}

// slashed is a part's name without the oddities that some writers put in.
func slashed(name string) string {
	return strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/")
}

// partURI is a part's name as a list of parts gives it.
func partURI(name string) string { return (&url.URL{Path: "/" + slashed(name)}).EscapedPath() }

// targetURI leads from one part to another by way of folders, the only way
// that all readers follow.
func targetURI(from, to string) string {
	dirs := strings.Split(slashed(from), "/")
	dirs = dirs[:len(dirs)-1]
	names := strings.Split(slashed(to), "/")
	for len(dirs) > 0 && len(names) > 1 && dirs[0] == names[0] {
		dirs, names = dirs[1:], names[1:]
	}
	return strings.Repeat("../", len(dirs)) + (&url.URL{Path: strings.Join(names, "/")}).EscapedPath()
}

// freeID is an identifier that no relationship in the list has.
func freeID(list []byte, base string) (string, error) {
	used := map[string]bool{}
	err := eachStart(list, func(s *xmlscan.Scanner) error {
		id, _, err := xmlscan.AttrValue(s.Attrs(), "Id")
		used[id] = true
		return err
	})
	for n := 1; ; n++ {
		if id := fmt.Sprintf("%s%d", base, n); !used[id] {
			return id, err
		}
	}
}

// vmlType tells what the list of types says of parts that end in .vml.
func vmlType(types []byte) (contentType string, err error) {
	err = eachStart(types, func(s *xmlscan.Scanner) error {
		if s.Level != 2 || localName(s.Name) != "Default" {
			return nil
		}
		extension, kind := "", ""
		err := eachAttr(s.Attrs(), func(name, value string) {
			switch name {
			case "Extension":
				extension = value
			case "ContentType":
				kind = value
			}
		})
		if strings.EqualFold(extension, "vml") {
			contentType = kind
		}
		return err
	})
	return contentType, err
}
