package ooxml

import (
	"bytes"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// The spreadsheet namespaces: the usual one, and that of strict workbooks.
const (
	NSMain   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	NSStrict = "http://purl.oclc.org/ooxml/spreadsheetml/main"
)

// Names holds the prefixes that a document's root declares for the spreadsheet
// namespace. The zero value holds none.
type Names struct {
	prefixes []string // "" or "x:"
	Root     string   // the root's own prefix
}

// Read takes the declarations of the root element.
func (m *Names) Read(rootName, attrs []byte) error {
	err := xmlscan.EachAttr(attrs, func(name, value string) {
		if value != NSMain && value != NSStrict {
			return
		}
		if name == "xmlns" {
			m.prefixes = append(m.prefixes, "")
		} else if p, ok := strings.CutPrefix(name, "xmlns:"); ok {
			m.prefixes = append(m.prefixes, p+":")
		}
	})
	if err != nil {
		return err
	}
	m.Root = string(rootName[:bytes.IndexByte(rootName, ':')+1])
	if m.Local(rootName) == nil {
		return opc.Unsupported("the XML does not use the spreadsheet namespace")
	}
	return nil
}

// Local returns an element's name without its prefix if it is in the
// spreadsheet namespace, else nil.
func (m *Names) Local(name []byte) []byte {
	colon := bytes.IndexByte(name, ':')
	for _, p := range m.prefixes {
		if len(p) == colon+1 && string(name[:colon+1]) == p {
			return name[colon+1:]
		}
	}
	return nil
}

// CheckRedeclared refuses an element that redeclares a prefix.
func (m *Names) CheckRedeclared(attrs []byte) error {
	if !bytes.Contains(attrs, []byte("xmlns")) {
		return nil
	}
	var bad error
	err := xmlscan.EachAttr(attrs, func(name, value string) {
		prefix, ok := "", name == "xmlns"
		if p, cut := strings.CutPrefix(name, "xmlns:"); cut {
			prefix, ok = p+":", true
		}
		if !ok {
			return
		}
		isMain := value == NSMain || value == NSStrict
		known := false
		for _, p := range m.prefixes {
			known = known || p == prefix
		}
		if isMain != known {
			bad = opc.Unsupported("the XML changes its namespaces in the middle")
		}
	})
	if err != nil {
		return err
	}
	return bad
}
