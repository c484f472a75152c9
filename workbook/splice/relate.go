package splice

import (
	"io"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Parts of the package point at each other in lists of relationships, and one
// list gives the type of each part. Both only grow here.

const typesPart = "[content_types].xml" // as a part key

// appendChild adds an element at the end of a document's root, in the root's
// own namespace.
func appendChild(doc []byte, element, attrs string) ([]byte, error) {
	s := xmlscan.OfBytes(doc)
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return nil, opc.DamagedXML("the XML has no end")
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
			return xmlscan.Replace(doc, from, to, string(xmlscan.Opened(s.Raw()))+child+"</"+name+">"), nil
		}
		return xmlscan.Replace(doc, from, from, child), nil
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
