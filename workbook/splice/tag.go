package splice

import "tenback/workbook/xmlscan"

// setAttr returns the start tag with one attribute set to value, which must
// need no escaping. All other bytes stay.
func setAttr(tag []byte, name, value string) ([]byte, error) {
	begin, end := attrSpan(tag)
	for at := 0; ; {
		a, ok, err := xmlscan.NextAttr(tag[begin:end], at)
		if err != nil {
			return nil, err
		}
		if !ok {
			break
		}
		if string(a.Name) == name {
			to := begin + a.To - 1
			from := to - len(a.Value)
			return splice(tag, from, to, value), nil
		}
		at = a.To
	}
	return splice(tag, end, end, " "+name+`="`+value+`"`), nil
}

// dropAttr returns the start tag without the attribute.
func dropAttr(tag []byte, name string) ([]byte, error) {
	begin, end := attrSpan(tag)
	for at := 0; ; {
		a, ok, err := xmlscan.NextAttr(tag[begin:end], at)
		if err != nil {
			return nil, err
		}
		if !ok {
			return tag, nil
		}
		if string(a.Name) == name {
			return splice(tag, begin+a.From, begin+a.To, ""), nil
		}
		at = a.To
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
