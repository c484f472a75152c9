package xmlscan

import (
	"bytes"
	"io"

	"tenback/workbook/opc"
)

const firstBuffer = 64 << 10

// window is the buffered part of a stream, with the current token in it.
type window struct {
	r    io.Reader // nil if buf holds everything
	buf  []byte
	fill int   // buf[:fill] is valid
	base int64 // offset of buf[0] in the stream
	from int   // token is buf[from:to]
	to   int
	keep int // first byte that must stay in buf, or -1
	err  error
}

// Raw returns the current token's bytes, valid until the next call of Next.
func (w *window) Raw() []byte { return w.buf[w.from:w.to] }

// Offset returns where the current token begins in the stream.
func (w *window) Offset() int { return int(w.base) + w.from }

// End returns where the current token ends in the stream.
func (w *window) End() int { return int(w.base) + w.to }

// Follows reports whether the bytes after the current token begin with b.
func (w *window) Follows(b []byte) (bool, error) {
	for w.fill-w.to < len(b) {
		if !bytes.HasPrefix(b, w.buf[w.to:w.fill]) {
			return false, nil
		}
		if _, err := w.more(); err == io.EOF {
			return false, nil
		} else if err != nil {
			return false, err
		}
	}
	return bytes.HasPrefix(w.buf[w.to:w.fill], b), nil
}

// Ahead returns the bytes after the current token up to a mark; ok is false if it is
// not among the next most bytes. They are valid until more is read.
func (w *window) Ahead(mark []byte, most int) (b []byte, ok bool, err error) {
	for seen := 0; ; {
		b = w.buf[w.to:w.fill]
		if i := bytes.Index(b[seen:], mark); i >= 0 {
			return b[:seen+i], true, nil
		}
		if seen = max(0, len(b)-len(mark)+1); len(b) >= most {
			return nil, false, nil
		}
		if _, err := w.more(); err == io.EOF {
			return nil, false, nil
		} else if err != nil {
			return nil, false, err
		}
	}
}

// Pass makes the next bytes, at most n, the current token. They must be known to be
// whole elements.
func (w *window) Pass(n int) error {
	w.from = w.to
	if w.from == w.fill {
		if _, err := w.more(); err != nil {
			return err
		}
	}
	w.to = min(w.from+n, w.fill)
	return nil
}

// Hold keeps the bytes from the current token on until Release.
func (w *window) Hold() { w.keep = w.from }

// Held returns the bytes from the token of Hold to the end of the current one,
// valid until the next call of Next.
func (w *window) Held() []byte { return w.buf[w.keep:w.to] }

// Release ends Hold.
func (w *window) Release() { w.keep = -1 }

// more reads further bytes. Indexes into buf decrease by shift.
func (w *window) more() (shift int, err error) {
	if w.err != nil {
		return 0, w.err
	}
	low := w.from
	if w.keep >= 0 && w.keep < low {
		low = w.keep
	}
	if low > 0 && w.fill == len(w.buf) {
		copy(w.buf, w.buf[low:w.fill])
		shift = low
		w.base += int64(low)
		w.fill -= low
		w.from -= low
		w.to -= low
		if w.keep >= 0 {
			w.keep -= low
		}
	}
	if w.fill == len(w.buf) {
		if len(w.buf) >= MaxToken {
			return shift, &opc.Error{Kind: opc.ErrLimit, Why: "one cell or tag is longer than 16 MB", Do: opc.DoResave}
		}
		w.buf = append(w.buf, make([]byte, len(w.buf))...)
	}
	n, err := io.ReadAtLeast(w.r, w.buf[w.fill:], 1)
	w.fill += n
	w.err = err
	return shift, err
}

// need reads until n bytes from the token's start are buffered or the stream ends.
func (w *window) need(n int) error {
	for w.fill-w.from < n {
		if _, err := w.more(); err != nil {
			if err == io.EOF {
				return nil
			}
			return err
		}
	}
	return nil
}

// until ends the token after mark, which it seeks from skip bytes on.
func (w *window) until(skip int, mark string) error {
	at := w.from + skip
	for {
		if at < w.fill {
			if i := bytes.Index(w.buf[at:w.fill], []byte(mark)); i >= 0 {
				w.to = at + i + len(mark)
				return nil
			}
			at = max(at, w.fill-len(mark)+1)
		}
		shift, err := w.more()
		at -= shift
		if err == io.EOF {
			return opc.DamagedXML("the XML ends too early")
		}
		if err != nil {
			return err
		}
	}
}
