package ooxml

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"tenback/workbook/grid"
	"tenback/workbook/xmlscan"
)

// DefinedName is a name in the workbook part.
type DefinedName struct {
	Name    string
	Scope   string // index of the sheet that it is local to; empty in the whole workbook
	Formula string // as a rule the cells that it names

	From, To         int // of its element
	TextFrom, TextTo int // of what the element holds
}

// Cell returns the cell that the name stands for. ok is false if it stands for
// anything else, such as a deleted cell.
func (n *DefinedName) Cell() (sheet string, at grid.Address, ok bool) {
	formula := strings.TrimSpace(n.Formula)
	mark := strings.LastIndexByte(formula, '!')
	if mark < 1 {
		return "", at, false
	}
	r, ok := grid.ParseRange(formula[mark+1:])
	at = grid.Address{Row: r.FirstRow, Col: r.FirstCol}
	sheet = formula[:mark]
	if inner, quoted := strings.CutPrefix(sheet, "'"); quoted {
		sheet = strings.ReplaceAll(strings.TrimSuffix(inner, "'"), "''", "'")
	}
	return sheet, at, ok && r == at.Range()
}

// NameList is the list of names of a workbook part.
type NameList struct {
	Names    []DefinedName
	From, To int    // of its element; the place for one if both are the same
	End      int    // of the last name, where another one may follow; 0 without the element
	Prefix   string // of the document's elements, with the colon
}

// beforeNames are the elements that the schema places right before the list of names.
var beforeNames = []string{"sheets", "functionGroups", "externalReferences"}

// ReadNames reads the names in a workbook part.
func ReadNames(book []byte) (NameList, error) {
	var list NameList
	var ns Names
	s := xmlscan.OfBytes(book)
	inside := false // in the list
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return list, nil
		}
		if err != nil {
			return list, err
		}
		start, end := kind == xmlscan.StartTag || kind == xmlscan.EmptyTag, kind == xmlscan.EndTag || kind == xmlscan.EmptyTag
		if start && s.Level == 1 {
			if err := ns.Read(s.Name, s.Attrs()); err != nil {
				return list, err
			}
			list.Prefix = ns.Root
		}
		local := string(ns.Local(s.Name))
		switch {
		case !start && !end:
			if n := len(list.Names) - 1; inside && n >= 0 && list.Names[n].To == 0 {
				text, err := s.AppendText(nil)
				if err != nil {
					return list, err
				}
				list.Names[n].Formula += string(text)
			}
		case s.Level == 2 && local == "definedNames":
			if start {
				list.From, list.To, list.End, inside = s.Offset(), s.End(), s.End(), true
			}
			if end {
				list.To, inside = s.End(), false
			}
			if kind == xmlscan.EmptyTag {
				list.End = 0
			}
		case s.Level == 2 && end && list.To == list.From && slices.Contains(beforeNames, local):
			list.From, list.To = s.End(), s.End()
		case inside && s.Level == 3 && local == "definedName":
			if start {
				list.Names = append(list.Names, DefinedName{From: s.Offset(), TextFrom: s.End()})
			}
			n := &list.Names[len(list.Names)-1]
			if start {
				err = xmlscan.EachAttr(s.Attrs(), func(name, value string) {
					switch name {
					case "name":
						n.Name = value
					case "localSheetId":
						n.Scope = value
					}
				})
				if err != nil {
					return list, err
				}
			}
			if end {
				n.To, n.TextTo, list.End = s.End(), max(n.TextFrom, s.Offset()), s.End()
			}
		}
	}
}

// NamedCells returns the single cells whose names begin with a prefix, in any case,
// by sheet.
func (b *Book) NamedCells(prefix string) (map[string][]NamedCell, error) {
	book, err := b.Load(b.Main)
	if err != nil || !bytes.Contains(book, []byte("definedName")) {
		return nil, err
	}
	list, err := ReadNames(book)
	if err != nil {
		return nil, failure(b.Main, err)
	}
	all := map[string][]NamedCell{}
	for i := range list.Names {
		n := &list.Names[i]
		if len(n.Name) < len(prefix) || !strings.EqualFold(n.Name[:len(prefix)], prefix) {
			continue
		}
		if sheet, at, ok := n.Cell(); ok {
			all[sheet] = append(all[sheet], NamedCell{at, n.Name[len(prefix):], n.Scope != ""})
		}
	}
	return all, nil
}

// NamedCell is a cell with a name.
type NamedCell struct {
	grid.Address
	Name  string // behind the prefix
	Local bool   // known on one sheet only
}
