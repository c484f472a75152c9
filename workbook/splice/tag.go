package splice

import "tenback/workbook/xmlscan"

// setAttr returns the start tag with one attribute set to value, which must
// need no escaping. All other bytes stay.
func setAttr(tag []byte, name, value string) ([]byte, error) {
	a, ok, err := findAttr(tag, name)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		_, end := attrSpan(tag)
		return splice(tag, end, end, " "+name+`="`+value+`"`), nil
	}
	to := a.To - 1
	return splice(tag, to-len(a.Value), to, value), nil
}

// dropAttr returns the start tag without the attribute.
func dropAttr(tag []byte, name string) ([]byte, error) {
	a, ok, err := findAttr(tag, name)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		return tag, nil
	}
	return splice(tag, a.From, a.To, ""), nil
}

// findAttr finds an attribute of a start tag, and its place in the tag.
func findAttr(tag []byte, name string) (a xmlscan.Attr, ok bool, err error) {
	begin, end := attrSpan(tag)
	for at := 0; ; at = a.To {
		if a, ok, err = xmlscan.NextAttr(tag[begin:end], at); err != nil || !ok {
			return a, false, err
		}
		if string(a.Name) == name {
			a.From, a.To = begin+a.From, begin+a.To
			return a, true, nil
		}
	}
}

func attrSpan(tag []byte) (begin, end int) {
	attrs := xmlscan.TagAttrs(tag)
	end = len(tag) - 1
	if tag[end-1] == '/' {
		end--
	}
	return end - len(attrs), end
}

// splice returns a copy of b with b[from:to] replaced by s.
func splice(b []byte, from, to int, s string) []byte {
	out := make([]byte, 0, len(b)-(to-from)+len(s))
	out = append(out, b[:from]...)
	out = append(out, s...)
	return append(out, b[to:]...)
}
