package splice

import (
	"slices"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/xmlscan"
)

// names writes the names of the edit into the workbook part.
func (pl *plan) names() error {
	if len(pl.edit.Names) == 0 {
		return nil
	}
	book, err := pl.content(pl.pkg.Main)
	if err != nil {
		return err
	}
	list, err := ooxml.ReadNames(book)
	if err != nil { // nothing else needs it
		pl.report.Notes = append(pl.report.Notes, "the workbook's list of names cannot be extended, so the new columns have no hidden names: "+err.Error())
		return nil
	}
	var missing []Name
	for _, want := range pl.edit.Names {
		if !slices.ContainsFunc(list.Names, want.isSaid) {
			missing = append(missing, want)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	if book, err = withoutNames(book, missing); err != nil {
		return err
	}
	if list, err = ooxml.ReadNames(book); err != nil {
		return err
	}
	var added []byte
	for _, n := range missing {
		added = append(added, "<"+list.Prefix+`definedName name="`+n.Name+`" hidden="1">`...)
		added = append(ooxml.AppendText(added, "'"+strings.ReplaceAll(n.Sheet, "'", "''")+"'!"+n.Cell.Range().Absolute()), "</"+list.Prefix+"definedName>"...)
	}
	if list.End > 0 {
		pl.small[pl.pkg.Main] = xmlscan.Replace(book, list.End, list.End, string(added))
		return nil
	}
	open, closed := "<"+list.Prefix+"definedNames>", "</"+list.Prefix+"definedNames>"
	pl.small[pl.pkg.Main] = xmlscan.Replace(book, list.From, list.To, open+string(added)+closed)
	return nil
}

// isSaid reports whether a name of the workbook stands for the cell already.
func (n *Name) isSaid(d ooxml.DefinedName) bool {
	sheet, at, ok := d.Cell()
	return n.isCalled(d) && ok && at == n.Cell && strings.EqualFold(sheet, n.Sheet)
}

func (n *Name) isCalled(d ooxml.DefinedName) bool {
	return d.Scope == "" && strings.EqualFold(d.Name, n.Name)
}

// withoutNames returns a workbook part without some names, and without the list if
// no other name is in it.
func withoutNames(book []byte, names []Name) ([]byte, error) {
	list, err := ooxml.ReadNames(book)
	if err != nil {
		return nil, err
	}
	gone := func(d ooxml.DefinedName) bool {
		return slices.ContainsFunc(names, func(n Name) bool { return n.isCalled(d) })
	}
	if !slices.ContainsFunc(list.Names, func(d ooxml.DefinedName) bool { return !gone(d) }) {
		return xmlscan.Replace(book, list.From, list.To, ""), nil
	}
	for _, d := range slices.Backward(list.Names) {
		if gone(d) {
			book = xmlscan.Replace(book, d.From, d.To, "")
		}
	}
	return book, nil
}

// sameButNames reports whether b is the workbook part a with the names of the edit.
func (v *verifier) sameButNames(a, b []byte) (bool, error) {
	list, err := ooxml.ReadNames(b)
	if err != nil {
		return false, err
	}
	for _, want := range v.edit.Names {
		if !slices.ContainsFunc(list.Names, want.isSaid) {
			return false, nil
		}
	}
	if a, err = withoutNames(a, v.edit.Names); err != nil {
		return false, err
	}
	if b, err = withoutNames(b, v.edit.Names); err != nil {
		return false, err
	}
	return string(a) == string(b), nil
}
