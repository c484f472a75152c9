package splice

import (
	"bytes"
	"fmt"
	"path"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

const typesPart = "[content_types].xml" // as a part key

// addStylesPart adds the part, its content type and the workbook's relationship
// to it.
func (pl *plan) addStylesPart(data []byte) error {
	p := pl.pkg
	main := opc.Key(p.Main.Name)
	rels, err := p.Rels(main)
	if err != nil {
		return err
	}
	used := map[string]bool{}
	for _, r := range rels {
		used[r.ID] = true
	}
	name, id := path.Join(path.Dir(main), "styles.xml"), "rIdStyles"
	for n := 1; p.Part(name) != nil || used[id]; n++ {
		name, id = path.Join(path.Dir(main), fmt.Sprintf("styles%d.xml", n)), fmt.Sprintf("rIdStyles%d", n)
	}
	book, err := pl.content(p.Main)
	if err != nil {
		return err
	}
	kind := "http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles"
	if bytes.Contains(book, []byte(ooxml.NSStrict)) {
		kind = "http://purl.oclc.org/ooxml/officeDocument/relationships/styles"
		data = bytes.Replace(data, []byte(ooxml.NSMain), []byte(ooxml.NSStrict), 1)
	}
	if err := pl.appendTo(typesPart, "Override", fmt.Sprintf(`PartName="/%s" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"`, name)); err != nil {
		return err
	}
	if err := pl.appendTo(opc.RelsName(main), "Relationship", fmt.Sprintf(`Id="%s" Type="%s" Target="/%s"`, id, kind, name)); err != nil {
		return err
	}
	pl.stylesName, pl.newStyles = name, data
	return nil
}

// content returns the part as planned so far.
func (pl *plan) content(pt *part) ([]byte, error) {
	if data, ok := pl.small[pt]; ok {
		return data, nil
	}
	return pl.pkg.Load(pt)
}

// appendTo adds an element at the end of a list of parts, in its root's namespace.
func (pl *plan) appendTo(name, element, attrs string) error {
	pt := pl.pkg.Part(name)
	if pt == nil {
		return &Error{Kind: opc.ErrDamaged, Why: "the file lacks its lists of parts", Do: opc.DoResave}
	}
	data, err := pl.content(pt)
	if err != nil {
		return err
	}
	end := bytes.LastIndex(data, []byte("</"))
	if end < 0 {
		return &Error{Kind: opc.ErrDamaged, Part: pt.Name, Why: "the list of parts is empty", Do: opc.DoResave}
	}
	pl.small[pt] = xmlscan.Replace(data, end, end, "<"+xmlscan.Prefix(data[end+1:])+element+" "+attrs+"/>")
	return nil
}
