// Package styles adds formats to the styles part of a workbook. All other bytes of
// the part are kept, and the old formats keep their numbers.
package styles

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

const (
	maxFormats     = 65_000  // formats of cells a workbook may have
	maxStyleItems  = 200_000 // entries held of one list of the styles part
	firstCustomFmt = 164     // number formats below are built in
	alternate      = "AlternateContent"
)

// New is the styles part of a workbook without one.
const New = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
	`<styleSheet xmlns="` + ooxml.NSMain + `">` +
	`<fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts>` +
	`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
	`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
	`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
	`<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>` +
	`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>` +
	`</styleSheet>`

// sectionOrder is the standard's order of the lists in a styles part.
var sectionOrder = []string{"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs",
	"cellStyles", "dxfs", "tableStyles", "colors", "extLst"}

// section is one of the lists in a styles part.
type section struct {
	name     string
	item     string   // name of its entries
	from, to int      // place of the start tag in the data
	end      int      // place of the end tag; equals to for an empty element
	missing  bool     // from, to and end are where it belongs
	items    [][]byte // whole entries, old then new
	old      int      // how many are old
}

// Look is what a format has in place of the format that it is based on. Fields that
// are zero change nothing.
type Look struct {
	NumberFormat string // number format code such as "0.0"
	Horizontal   string // left, center or right
}

// Sheet is a styles part that formats can be added to.
type Sheet struct {
	data     []byte
	prefix   string
	sections map[string]*section // by name, those of items
	nextFmt  int
}

// items are the lists that formats are added to, with the name of their entries.
var items = map[string]string{"numFmts": "numFmt", "cellXfs": "xf"}

// Read reads a styles part.
func Read(data []byte) (*Sheet, error) {
	ss := &Sheet{data: data, sections: map[string]*section{}, nextFmt: firstCustomFmt}
	var ns ooxml.Names
	var cur *section
	var itemAt, rootEnd int
	before := map[string]int{} // where each known section starts
	s := xmlscan.OfBytes(data)
	for {
		kind, err := s.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		at, end := s.Offset(), s.Offset()+len(s.Raw())
		switch {
		case kind == xmlscan.StartTag && s.Level == 1:
			if err := ns.Read(s.Name, s.Attrs()); err != nil {
				return nil, err
			}
			if string(ns.Local(s.Name)) != "styleSheet" {
				return nil, opc.Unsupported("the styles part holds something else")
			}
			ss.prefix = ns.Root
		case kind == xmlscan.EmptyTag && s.Level == 1:
			return nil, opc.Unsupported("the styles part is empty")
		case kind == xmlscan.EndTag && s.Level == 1:
			rootEnd = at
		case (kind == xmlscan.StartTag || kind == xmlscan.EmptyTag) && s.Level == 2:
			name := string(ns.Local(s.Name))
			if _, ok := before[name]; !ok {
				before[name] = at
			}
			if item, ok := items[name]; ok {
				if ss.sections[name] != nil {
					return nil, opc.Unsupported("the styles part has the list " + name + " twice")
				}
				if err := ns.CheckRedeclared(s.Attrs()); err != nil {
					return nil, err
				}
				sec := &section{name: name, item: item, from: at, to: end, end: end}
				ss.sections[name] = sec
				if kind == xmlscan.StartTag {
					cur = sec
				}
			}
		case kind == xmlscan.EndTag && s.Level == 2 && cur != nil:
			cur.end = at
			cur = nil
		case cur != nil && s.Level == 3 && (kind == xmlscan.StartTag || kind == xmlscan.EmptyTag):
			if string(ns.Local(s.Name)) != cur.item && (cur.name != "cellXfs" || xmlscan.LocalName(s.Name) != alternate) {
				return nil, opc.Unsupported("the styles part has an unusual entry in its list " + cur.name)
			}
			if len(cur.items) >= maxStyleItems {
				return nil, &opc.Error{Kind: opc.ErrLimit, Why: "the workbook has more formats than allowed", Do: opc.DoResave}
			}
			itemAt = at
			if kind == xmlscan.EmptyTag {
				cur.items = append(cur.items, data[at:end])
			}
		case cur != nil && s.Level == 3 && kind == xmlscan.EndTag:
			cur.items = append(cur.items, data[itemAt:end])
		}
	}
	for name, item := range items {
		sec := ss.sections[name]
		if sec == nil {
			place := rootEnd
			for _, later := range sectionOrder[slices.Index(sectionOrder, name)+1:] {
				if at, ok := before[later]; ok {
					place = min(place, at)
				}
			}
			sec = &section{name: name, item: item, from: place, to: place, end: place, missing: true}
			ss.sections[name] = sec
		}
		sec.old = len(sec.items)
	}
	for _, item := range ss.sections["cellXfs"].items {
		if _, err := ss.plain(item); err != nil {
			return nil, err
		}
	}
	for _, item := range ss.sections["numFmts"].items {
		if id, err := intAttr(item, "numFmtId"); err != nil {
			return nil, err
		} else if id >= ss.nextFmt && id < 1<<30 {
			ss.nextFmt = id + 1
		}
	}
	return ss, nil
}

// startTag returns the start tag of a whole element.
func startTag(element []byte) []byte {
	quote := byte(0)
	for i, c := range element {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return element[:i+1]
		}
	}
	return element
}

func intAttr(element []byte, name string) (int, error) {
	v, _, err := xmlscan.AttrValue(xmlscan.TagAttrs(startTag(element)), name)
	n, _ := strconv.Atoi(v) // absent means 0
	return n, err
}

// add returns the index of an entry in a list, which it appends if need be.
func (ss *Sheet) add(list string, entry []byte) int {
	sec := ss.sections[list]
	for i, item := range sec.items {
		if bytes.Equal(item, entry) {
			return i
		}
	}
	sec.items = append(sec.items, entry)
	return len(sec.items) - 1
}

// XF returns the index of the base format changed by the look, which it adds if need
// be.
func (ss *Sheet) XF(base int, look Look) (int, error) {
	xfs := ss.sections["cellXfs"]
	if len(xfs.items) == 0 {
		ss.add("cellXfs", []byte("<"+ss.prefix+"xf/>"))
	}
	if base >= len(xfs.items) {
		base = 0 // such a cell shows the default
	}
	entry, err := ss.plain(xfs.items[base])
	if err != nil {
		return 0, err
	}
	set := func(name string, value int, apply string) (err error) {
		if entry, err = ss.setOn(entry, name, strconv.Itoa(value)); err == nil {
			entry, err = ss.setOn(entry, apply, "1")
		}
		return err
	}
	if look.NumberFormat != "" {
		id, err := ss.numFmt(look.NumberFormat)
		if err == nil {
			err = set("numFmtId", id, "applyNumberFormat")
		}
		if err != nil {
			return 0, err
		}
	}
	if look.Horizontal != "" {
		var err error
		if entry, err = ss.align(entry, look.Horizontal); err != nil {
			return 0, err
		}
	}
	n := ss.add("cellXfs", entry)
	if n >= maxFormats {
		return 0, &opc.Error{Kind: opc.ErrLimit, Why: fmt.Sprintf("the workbook already has %d cell formats, so no new one fits", n),
			Do: "copy the sheet into a fresh workbook and retry"}
	}
	return n, nil
}

// plain returns the format of an entry, or of the last branch of one that is a choice
// between formats, which is for all programs.
func (ss *Sheet) plain(entry []byte) ([]byte, error) {
	prefix := xmlscan.Prefix(entry)
	if !bytes.HasPrefix(entry, []byte("<"+prefix+alternate)) {
		return entry, nil
	}
	at, end, err := child(entry, prefix+"Fallback")
	branch := entry[at:end]
	if err == nil && at > 0 {
		at, end, err = child(branch, ss.prefix+"xf")
	}
	if err == nil && (at == 0 || bytes.Count(branch, []byte("<"+ss.prefix+"xf")) > 1) {
		err = opc.Unsupported("the styles part has a choice of formats without exactly one for all programs")
	}
	return branch[at:end], err
}

// setOn returns the element with one attribute set.
func (ss *Sheet) setOn(element []byte, name, value string) ([]byte, error) {
	tag := startTag(element)
	changed, err := xmlscan.SetAttr(tag, name, value)
	if err != nil {
		return nil, err
	}
	return append(changed, element[len(tag):]...), nil
}

// builtIn holds number formats that every reader knows by number.
var builtIn = map[string]int{"General": 0, "0": 1, "0.00": 2, "#,##0": 3, "#,##0.00": 4, "0%": 9, "0.00%": 10, "@": 49}

func (ss *Sheet) numFmt(code string) (int, error) {
	if id, ok := builtIn[code]; ok {
		return id, nil
	}
	sec := ss.sections["numFmts"]
	for _, item := range sec.items {
		v, _, err := xmlscan.AttrValue(xmlscan.TagAttrs(startTag(item)), "formatCode")
		if err != nil {
			return 0, err
		}
		if v == code {
			return intAttr(item, "numFmtId")
		}
	}
	id := ss.nextFmt
	ss.nextFmt++
	escaped := strings.ReplaceAll(string(ooxml.AppendText(nil, code)), `"`, "&quot;")
	sec.items = append(sec.items, fmt.Appendf(nil, `<%snumFmt numFmtId="%d" formatCode="%s"/>`, ss.prefix, id, escaped))
	return id, nil
}

// align returns the format with that horizontal alignment.
func (ss *Sheet) align(xf []byte, horizontal string) ([]byte, error) {
	at, end, err := child(xf, ss.prefix+"alignment")
	if err != nil {
		return nil, err
	}
	element := []byte("<" + ss.prefix + "alignment/>")
	if at > 0 {
		element = xf[at:end]
	}
	if element, err = ss.setOn(element, "horizontal", horizontal); err != nil {
		return nil, err
	}
	if at > 0 {
		xf = xmlscan.Replace(xf, at, end, string(element))
	} else {
		xf = ss.prepend(xf, string(element))
	}
	return ss.setOn(xf, "applyAlignment", "1")
}

// child returns the place of the first child of that name; at is 0 if there is none.
func child(element []byte, name string) (at, end int, err error) {
	s := xmlscan.OfBytes(element)
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return 0, 0, nil
		}
		if err != nil {
			return 0, 0, err
		}
		if s.Level != 2 || string(s.Name) != name {
			continue
		}
		switch kind {
		case xmlscan.EmptyTag:
			return s.Offset(), s.Offset() + len(s.Raw()), nil
		case xmlscan.StartTag:
			at = s.Offset()
		case xmlscan.EndTag:
			return at, s.Offset() + len(s.Raw()), nil
		}
	}
}

// prepend returns the element with a new first child.
func (ss *Sheet) prepend(element []byte, child string) []byte {
	tag := startTag(element)
	if tag[len(tag)-2] != '/' {
		return xmlscan.Replace(element, len(tag), len(tag), child)
	}
	out := append(xmlscan.Opened(tag), child...)
	return append(out, "</"+ss.prefix+xmlscan.LocalName(tag[1:len(tag)-2-len(xmlscan.TagAttrs(tag))])+">"...)
}

// Bytes returns the part with the new entries, or nil if there are none.
func (ss *Sheet) Bytes() ([]byte, error) {
	var changed []*section
	for _, sec := range ss.sections {
		if len(sec.items) > sec.old {
			changed = append(changed, sec)
		}
	}
	if len(changed) == 0 {
		return nil, nil
	}
	slices.SortFunc(changed, func(a, b *section) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return slices.Index(sectionOrder, a.name) - slices.Index(sectionOrder, b.name)
	})
	var out []byte
	at := 0
	for _, sec := range changed {
		out = append(out, ss.data[at:sec.from]...)
		tag := ss.data[sec.from:sec.to]
		closing := ""
		switch {
		case sec.missing:
			tag = []byte("<" + ss.prefix + sec.name + ` count="0">`)
			closing = "</" + ss.prefix + sec.name + ">"
		case sec.end == sec.to && tag[len(tag)-2] == '/':
			tag = xmlscan.Opened(tag)
			closing = "</" + xmlscan.Prefix(tag) + sec.name + ">"
		}
		if _, ok, err := xmlscan.AttrValue(xmlscan.TagAttrs(tag), "count"); err != nil {
			return nil, err
		} else if ok {
			if tag, err = xmlscan.SetAttr(tag, "count", strconv.Itoa(len(sec.items))); err != nil {
				return nil, err
			}
		}
		out = append(out, tag...)
		out = append(out, ss.data[sec.to:sec.end]...)
		for _, item := range sec.items[sec.old:] {
			out = append(out, item...)
		}
		out = append(out, closing...)
		at = sec.end
	}
	return append(out, ss.data[at:]...), nil
}
