package xmlscan

import (
	"bytes"
	"io"
)

// EachStart calls f for every start tag of a document in memory.
func EachStart(data []byte, f func(*Scanner) error) error {
	for s := OfBytes(data); ; {
		kind, err := s.Next()
		if err == io.EOF {
			return nil
		}
		if err == nil && (kind == StartTag || kind == EmptyTag) {
			err = f(s)
		}
		if err != nil {
			return err
		}
	}
}

// EachAttr calls f for every attribute, with its decoded value.
func EachAttr(attrs []byte, f func(name, value string)) error {
	for at := 0; ; {
		a, ok, err := NextAttr(attrs, at)
		if err != nil || !ok {
			return err
		}
		v, err := Value(a.Value)
		if err != nil {
			return err
		}
		f(string(a.Name), string(v))
		at = a.To
	}
}

// LocalName returns a qualified name without its prefix.
func LocalName(name []byte) string { return string(name[bytes.IndexByte(name, ':')+1:]) }

// Prefix returns the prefix of a start tag's name, with the colon.
func Prefix(tag []byte) string {
	name := tag[1:]
	for i, c := range name {
		if c == ':' {
			return string(name[:i+1])
		}
		if IsSpace(c) || c == '>' || c == '/' {
			break
		}
	}
	return ""
}

// Opened turns the tag <a/> into <a>.
func Opened(tag []byte) []byte { return Replace(tag, len(tag)-2, len(tag)-1, "") }

// SetAttr returns the start tag with one attribute set to value, which must
// need no escaping. All other bytes are kept.
func SetAttr(tag []byte, name, value string) ([]byte, error) {
	a, ok, err := FindAttr(tag, name)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		_, end := attrSpan(tag)
		return Replace(tag, end, end, " "+name+`="`+value+`"`), nil
	}
	to := a.To - 1
	return Replace(tag, to-len(a.Value), to, value), nil
}

// DropAttr returns the start tag without the attribute.
func DropAttr(tag []byte, name string) ([]byte, error) {
	a, ok, err := FindAttr(tag, name)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		return tag, nil
	}
	return Replace(tag, a.From, a.To, ""), nil
}

// FindAttr returns an attribute of a start tag, with its place in the tag.
func FindAttr(tag []byte, name string) (a Attr, ok bool, err error) {
	begin, end := attrSpan(tag)
	for at := 0; ; at = a.To {
		if a, ok, err = NextAttr(tag[begin:end], at); err != nil || !ok {
			return a, false, err
		}
		if string(a.Name) == name {
			a.From, a.To = begin+a.From, begin+a.To
			return a, true, nil
		}
	}
}

func attrSpan(tag []byte) (begin, end int) {
	attrs := TagAttrs(tag)
	end = len(tag) - 1
	if tag[end-1] == '/' {
		end--
	}
	return end - len(attrs), end
}

// Replace returns a copy of b with b[from:to] replaced by s.
func Replace(b []byte, from, to int, s string) []byte {
	out := make([]byte, 0, len(b)-(to-from)+len(s))
	out = append(out, b[:from]...)
	out = append(out, s...)
	return append(out, b[to:]...)
}
