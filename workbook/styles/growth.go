package styles

import (
	"bytes"
	"errors"

	"tenback/workbook/xmlscan"
)

// Growth allows entries at the end of the two lists that formats need,
// those lists where they were missing, and their counts.
var Growth = &xmlscan.Growth{
	Added: func(a *xmlscan.Scanner, kind xmlscan.Token, b *xmlscan.Scanner) (bool, error) {
		nameA, nameB := xmlscan.LocalName(a.Name), xmlscan.LocalName(b.Name)
		switch b.Level {
		case 3:
			return kind == xmlscan.EndTag && a.Level == 2 && items[nameA] == nameB, nil
		case 2:
			return items[nameB] != "" && (kind == xmlscan.EndTag || nameA != nameB), nil
		}
		return false, nil
	},
	Want: func(level int, local string, tagA, tagB []byte) ([]byte, error) {
		if level != 2 || items[local] == "" {
			return nil, nil
		}
		if bytes.HasSuffix(tagA, []byte("/>")) && !bytes.HasSuffix(tagB, []byte("/>")) {
			tagA = xmlscan.Opened(tagA)
		}
		_, counted, err := xmlscan.FindAttr(tagA, "count")
		is, _, errB := xmlscan.FindAttr(tagB, "count")
		if err != nil || errB != nil || !counted {
			return tagA, errors.Join(err, errB)
		}
		return xmlscan.SetAttr(tagA, "count", string(is.Value))
	},
}
