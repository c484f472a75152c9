package splice

import "strings"

// The shapes of cell comments are in a drawing of the old kind, which the
// sheet names in one element at a fixed place among the others.

const (
	nsRelations       = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	nsRelationsStrict = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	nsAlternatives    = "http://schemas.openxmlformats.org/markup-compatibility/2006"
)

// behindLegacy are the elements of a sheet that stand after the old drawing.
var behindLegacy = map[string]bool{
	"legacyDrawingHF": true, "drawingHF": true, "picture": true, "oleObjects": true, "controls": true,
	"webPublishItems": true, "tableParts": true, "extLst": true,
}

// legacyPlace finds the old drawing of a sheet, or the place where it would
// stand: before the section with that number.
type legacyPlace struct {
	sections int    // elements below the root met so far, the old drawing left out
	place    int    // where it would stand
	at       int    // where it stands; 0 if there is none
	id       string // of its relationship
	disorder bool   // the sheet does not keep to the order of sections
	behind   bool   // a section was met that belongs behind the old drawing
	prefix   string // that the root declares for relationships; empty if it does not
	strict   bool
}

func (l *legacyPlace) readRoot(attrs []byte) error {
	return eachAttr(attrs, func(name, value string) {
		prefix, ok := strings.CutPrefix(name, "xmlns:")
		if ok && (value == nsRelations || value == nsRelationsStrict) {
			l.prefix = prefix
		}
		l.strict = l.strict || strings.HasPrefix(name, "xmlns") && value == nsStrict
	})
}

// pass takes note of a section. One of no known name goes behind, where
// extensions belong. The list of widths, which may be new, does not count.
func (l *legacyPlace) pass(section string) {
	if section == "cols" {
		return
	}
	l.sections++
	if behindLegacy[section] || section == "" {
		l.behind = l.behind || section != ""
		return
	}
	l.place = l.sections + 1
	l.disorder = l.disorder || l.behind
}

func (l *legacyPlace) found(attrs []byte) error {
	l.disorder = l.disorder || l.at > 0
	l.at = l.sections + 1
	return eachAttr(attrs, func(name, value string) {
		if prefix, local, ok := strings.Cut(name, ":"); ok && local == "id" && prefix != "xmlns" {
			l.id = value
		}
	})
}

// element is the one that names the old drawing. Strict workbooks have no such
// element of their own; there it comes as an alternative for readers that know
// the old drawings. id needs no escaping.
func (l *legacyPlace) element(sheetPrefix, id string) string {
	attr, namespace := l.prefix+`:id="`+id+`"`, nsRelations
	if l.strict {
		namespace = nsRelationsStrict
	}
	if l.prefix == "" {
		attr = `xmlns:r="` + namespace + `" r` + attr
	}
	drawing := "<" + sheetPrefix + "legacyDrawing " + attr + "/>"
	if !l.strict {
		return drawing
	}
	return `<mc:AlternateContent xmlns:mc="` + nsAlternatives + `"><mc:Choice xmlns:v="` + nsVML + `" Requires="v">` +
		drawing + `</mc:Choice></mc:AlternateContent>`
}
