package splice

import (
	"archive/zip"
	"encoding/binary"
	"io"
	"strings"

	"tenback/workbook/ooxml"
	"tenback/workbook/opc"
)

// limits are those of the package and of the ranges on a sheet; tests use smaller ones.
type limits struct {
	opc.Limits
	blocks int
}

var defaultLimits = limits{opc.Default, 200_000}

type part = opc.Part

// pkg is an opened package.
type pkg struct {
	*ooxml.Book
	limits limits
}

func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	b, err := ooxml.OpenParts(r, size, lim.Limits)
	if err != nil {
		return nil, err
	}
	return &pkg{b, lim}, nil
}

// sheetRef is one entry of the workbook's list of sheets.
type sheetRef struct {
	ooxml.Sheet
	index int // position among all sheets, charts included
}

// sheet finds a worksheet by name, exactly or but for upper and lower case.
func (p *pkg) sheet(name string) (*sheetRef, error) {
	var found *sheetRef
	for i, s := range p.Sheets() {
		if s.Name == name {
			found = &sheetRef{s, i}
			break
		} else if found == nil && strings.EqualFold(s.Name, name) {
			found = &sheetRef{s, i}
		}
	}
	if found == nil {
		return nil, &Error{Kind: ErrNoSheet, Sheet: name, Why: "the workbook has no sheet of that name", Do: "check the name on the tab"}
	}
	return found, usable(found.Sheet)
}

// usable returns why a sheet has no cells to edit, or nil.
func usable(s ooxml.Sheet) error {
	if s.Cells {
		return nil
	}
	return &Error{Kind: ErrNoSheet, Sheet: s.Name, Why: "this sheet has no cells (it is a chart, dialog or macro sheet)", Do: "choose another sheet"}
}

// copyRaw copies one entry without unpacking it.
func copyRaw(zw *zip.Writer, f *zip.File) error {
	h := f.FileHeader
	h.Extra = dropZip64(h.Extra)
	dst, err := zw.CreateRaw(&h)
	if err != nil {
		return err
	}
	src, err := f.OpenRaw()
	if err != nil {
		return &Error{Kind: opc.ErrDamaged, Part: f.Name, Why: "the part is damaged", Do: opc.DoCopy, Cause: err}
	}
	n, err := io.Copy(dst, src)
	if err != nil {
		return err
	}
	if uint64(n) != f.CompressedSize64 {
		return &Error{Kind: opc.ErrDamaged, Part: f.Name, Why: "the part is cut short", Do: opc.DoCopy}
	}
	return nil
}

// dropZip64 removes the record of 64-bit sizes, which the writer adds again
// where it is needed.
func dropZip64(extra []byte) []byte {
	var out []byte
	for len(extra) >= 4 {
		n := 4 + int(binary.LittleEndian.Uint16(extra[2:]))
		if n > len(extra) {
			break
		}
		if binary.LittleEndian.Uint16(extra) != 1 {
			out = append(out, extra[:n]...)
		}
		extra = extra[n:]
	}
	return append(out, extra...)
}

// createLike starts an entry that replaces f.
func createLike(zw *zip.Writer, f *zip.File) (io.Writer, error) {
	return zw.CreateHeader(&zip.FileHeader{
		Name: f.Name, NonUTF8: f.NonUTF8, Comment: f.Comment, Method: zip.Deflate,
		Modified: f.Modified, CreatorVersion: f.CreatorVersion, ExternalAttrs: f.ExternalAttrs,
	})
}
