package xmlscan

import (
	"bytes"
	"strconv"
	"strings"

	"tenback/workbook/opc"
)

// checkEncoding refuses UTF-16. A UTF-8 byte order mark becomes a token.
func (s *Scanner) checkEncoding() (bom bool, err error) {
	if err := s.need(4); err != nil {
		return false, err
	}
	b := s.buf[s.from:s.fill]
	if bytes.HasPrefix(b, []byte{0xFE, 0xFF}) || bytes.HasPrefix(b, []byte{0xFF, 0xFE}) ||
		len(b) > 1 && (b[0] == 0 || b[1] == 0) {
		return false, opc.Unsupported("the XML is stored as UTF-16, not UTF-8")
	}
	if bytes.HasPrefix(b, []byte("\xEF\xBB\xBF")) {
		s.to = s.from + 3
		return true, nil
	}
	return false, nil
}

func (s *Scanner) checkDeclaration() error {
	tok := s.Raw()
	if !bytes.HasPrefix(tok, []byte("<?xml")) || len(tok) < 8 || !IsSpace(tok[5]) {
		return nil
	}
	v, ok, err := AttrValue(tok[5:len(tok)-2], "encoding")
	if err != nil || !ok {
		return err
	}
	switch strings.ToLower(v) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return nil
	}
	return opc.Unsupported("the XML is stored as " + strconv.Quote(v) + ", not UTF-8")
}
