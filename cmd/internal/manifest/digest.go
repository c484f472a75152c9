package manifest

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"
	"time"

	"tenback/scoring"
)

// Digest is a sum over all that a page is made from: two equal digests are of
// equal pages.
type Digest [sha256.Size]byte

// String writes the digest in hexadecimal digits.
func (d Digest) String() string { return hex.EncodeToString(d[:]) }

// Of sums up values with everything that can be reached from them, in fields of
// any name, behind pointers, in lists and maps. So nothing that is added to a
// page's input later can be forgotten here.
//
// Three things are not looked into. A field test and an equation are declared
// in the program and stand for themselves by their IDs, so the build of the
// program must be among the values. A type with a Fingerprint method is what
// that says. Cell addresses (see addresses) do not count, for no page prints
// them, and they move when a row is inserted.
//
// The error is for a value that has no content to sum up, such as a function.
func Of(values ...any) (Digest, error) {
	var s summing
	for _, v := range values {
		if v == nil {
			return Digest{}, errors.New("a page cannot be made from nothing")
		}
		if err := s.add(held(reflect.ValueOf(v))); err != nil {
			return Digest{}, err
		}
	}
	return sha256.Sum256(s.bytes), nil
}

// held is a copy of a value that can be addressed, so that what lies in fields
// which are not exported can be taken out of them.
func held(v reflect.Value) reflect.Value {
	copied := reflect.New(v.Type()).Elem()
	copied.Set(v)
	return copied
}

// addresses are the names of fields that hold where in the workbook something
// stands.
var addresses = map[string]bool{"cell": true, "Cell": true, "ResultCell": true}

// fingerprinted is a type that sums itself up.
type fingerprinted interface{ Fingerprint() string }

// summing collects the bytes to sum. Every value is written with its length or
// in a fixed one, so that no two different values run into the same bytes.
type summing struct {
	bytes []byte
	path  []reflect.Value // the pointers that led here
}

func (s *summing) number(n uint64) { s.bytes = binary.BigEndian.AppendUint64(s.bytes, n) }

func (s *summing) text(t string) {
	s.number(uint64(len(t)))
	s.bytes = append(s.bytes, t...)
}

func (s *summing) add(v reflect.Value) error {
	if s.standIn(v) {
		return nil
	}
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			s.number(1)
		} else {
			s.number(0)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		s.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		s.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		s.number(math.Float64bits(v.Float()))
	case reflect.String:
		s.text(v.String())
	case reflect.Slice, reflect.Array:
		return s.list(v)
	case reflect.Map:
		return s.table(v)
	case reflect.Struct:
		return s.fields(v)
	case reflect.Pointer, reflect.Interface:
		return s.behind(v)
	default:
		return fmt.Errorf("a page cannot be made from a %s: it has no content to compare", v.Type())
	}
	return nil
}

// standIn adds what stands for a value that is not looked into, if it is one.
func (s *summing) standIn(v reflect.Value) bool {
	switch kindOf(v.Type()).stand {
	case byID:
		s.text(v.FieldByName("ID").String())
	case byTime:
		s.text(opened(v).(time.Time).Format(time.RFC3339Nano))
	case byFingerprint:
		if v.Kind() == reflect.Pointer && v.IsNil() {
			return false
		}
		s.text(opened(v).(fingerprinted).Fingerprint())
	default:
		return false
	}
	return true
}

// stand is what stands for the values of a type.
type stand uint8

const (
	bySelf stand = iota // they are looked into
	byID
	byTime
	byFingerprint
)

// kind is what is to be known of a type to sum up its values. A page's input has
// hundreds of them, of few types, and to ask each for its type's fields and
// methods took most of the time.
type kind struct {
	stand  stand
	fields []int // of a struct, those that count
}

var kinds sync.Map // of reflect.Type to *kind

func kindOf(t reflect.Type) *kind {
	if known, ok := kinds.Load(t); ok {
		return known.(*kind)
	}
	k := &kind{}
	switch {
	case t == reflect.TypeFor[scoring.Test]() || t == reflect.TypeFor[scoring.Equation]():
		k.stand = byID
	case t == reflect.TypeFor[time.Time]():
		k.stand = byTime
	case t.Implements(reflect.TypeFor[fingerprinted]()):
		k.stand = byFingerprint
	}
	if t.Kind() == reflect.Struct {
		for i := range t.NumField() {
			if !addresses[t.Field(i).Name] {
				k.fields = append(k.fields, i)
			}
		}
	}
	kinds.Store(t, k)
	return k
}

// opened is the value of a field that may not be exported.
func opened(v reflect.Value) any {
	if v.CanInterface() {
		return v.Interface()
	}
	return reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem().Interface()
}

func (s *summing) list(v reflect.Value) error {
	s.number(uint64(v.Len()))
	if v.Type().Elem().Kind() == reflect.Uint8 && v.Kind() == reflect.Slice {
		s.bytes = append(s.bytes, v.Bytes()...)
		return nil
	}
	for i := range v.Len() {
		if err := s.add(v.Index(i)); err != nil {
			return err
		}
	}
	return nil
}

// table adds the entries of a map, in the order of their sums.
func (s *summing) table(v reflect.Value) error {
	type entry struct{ key, value []byte }
	var all []entry
	for entries := reflect.ValueOf(opened(v)).MapRange(); entries.Next(); {
		key, value := summing{path: s.path}, summing{path: s.path}
		if err := errors.Join(key.add(held(entries.Key())), value.add(held(entries.Value()))); err != nil {
			return err
		}
		all = append(all, entry{key.bytes, value.bytes})
	}
	slices.SortFunc(all, func(a, b entry) int { return cmp.Or(bytes.Compare(a.key, b.key), bytes.Compare(a.value, b.value)) })
	s.number(uint64(len(all)))
	for _, e := range all {
		s.text(string(e.key))
		s.text(string(e.value))
	}
	return nil
}

func (s *summing) fields(v reflect.Value) error {
	for _, i := range kindOf(v.Type()).fields {
		if err := s.add(v.Field(i)); err != nil {
			return fmt.Errorf("%s.%s: %w", v.Type(), v.Type().Field(i).Name, err)
		}
	}
	return nil
}

// behind follows a pointer. One that leads back to where it came from, as from
// the row of a table to the table, is written as the number of steps back.
func (s *summing) behind(v reflect.Value) error {
	if v.IsNil() {
		s.number(0)
		return nil
	}
	if v.Kind() == reflect.Interface {
		s.number(1)
		s.text(v.Elem().Type().String())
		return s.add(held(reflect.ValueOf(opened(v))))
	}
	for i, before := range s.path {
		if before.Type() == v.Type() && before.Pointer() == v.Pointer() {
			s.number(uint64(2 + len(s.path) - i))
			return nil
		}
	}
	s.number(1)
	s.path = append(s.path, v)
	defer func() { s.path = s.path[:len(s.path)-1] }()
	return s.add(v.Elem())
}
