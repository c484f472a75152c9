package locked

import (
	"bytes"
	"errors"
	"flag"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/agile.xlsx again")

const password = "river bank ö"

func TestStandardRoundTrip(t *testing.T) {
	plain := sample(t)
	raw, err := Close(plain, password)
	if err != nil {
		t.Fatal(err)
	}
	if scheme, err := Inspect(bytes.NewReader(raw)); err != nil || scheme != Standard {
		t.Errorf("Inspect: %v, %v, want Standard", scheme, err)
	}
	before := bytes.Clone(raw)
	got, scheme, err := Open(raw, password)
	if err != nil || scheme != Standard || !bytes.Equal(got, plain) {
		t.Errorf("Open: %d bytes, %v, %v; want the %d bytes that were closed", len(got), scheme, err, len(plain))
	}
	if !bytes.Equal(raw, before) {
		t.Error("Open changed what it was given")
	}
}

// The file in testdata is for the tests of other packages too.
func TestAgileOpens(t *testing.T) {
	path := filepath.Join("testdata", "agile.xlsx")
	if *update {
		if err := os.WriteFile(path, agile(t, sample(t), password), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	got, scheme, err := Open(raw, password)
	if err != nil || scheme != Agile {
		t.Fatalf("Open: %v, %v, want Agile", scheme, err)
	}
	plain := sample(t)
	if again, _, err := Open(agile(t, plain, password), password); err != nil || !bytes.Equal(again, plain) {
		t.Errorf("a workbook locked here: %d bytes, %v; want %d", len(again), err, len(plain))
	}
	if !bytes.HasPrefix(got, []byte("PK")) {
		t.Error("what was opened is no zip")
	}
}

// The container is not made well for less than 4 KB, which hardly any workbook
// is. Then there is an error and never a file that cannot be opened.
func TestTooSmallIsAnError(t *testing.T) {
	for _, size := range []int{4, 100, 4080} {
		if raw, err := Close(append([]byte("PK\x03\x04"), make([]byte, size-4)...), "x"); err == nil {
			if _, _, err := Open(raw, "x"); err != nil {
				t.Errorf("%d bytes were locked for good: %v", size, err)
			}
		}
	}
}

// Sizes around the bounds of the container: the mini stream, the blocks of the
// cipher, the lists of sectors that do not fit into the head.
func TestSizes(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	source := rand.NewChaCha8([32]byte{1})
	for _, size := range []int{4088, 4095, 4096, 65_535, 7_000_000, 7_200_001, 16_000_000} {
		plain := make([]byte, size)
		_, _ = source.Read(plain) // never fails: the source is a generator
		copy(plain, "PK\x03\x04")
		if _, err := Close(plain, "x"); err != nil {
			t.Errorf("%d bytes: %v", size, err)
		}
	}
}

func TestRefusals(t *testing.T) {
	raw, err := Close(sample(t), password)
	if err != nil {
		t.Fatal(err)
	}
	locked := agile(t, sample(t), password)
	cut := func(b []byte, n int) []byte { return bytes.Clone(b[:n]) }
	changed := func(b []byte, old, with string) []byte { return bytes.Replace(b, []byte(old), []byte(with), 1) }
	for _, c := range []struct {
		name     string
		raw      []byte
		password string
		want     error
	}{
		{"wrong password, standard", raw, "other", ErrPassword},
		{"wrong password, agile", locked, "other", ErrPassword},
		{"no password", raw, "", ErrPassword},
		{"an old .xls file", container(t, map[string][]byte{"Workbook": []byte("x")}), password, ErrOld},
		{"a text document", container(t, map[string][]byte{"WordDocument": []byte("x")}), password, ErrNotLocked},
		{"managed rights", container(t, map[string][]byte{"EncryptedPackage": make([]byte, 5000)}), password, ErrUnsupported},
		{"unknown cipher", changed(locked, `cipherAlgorithm="AES"`, `cipherAlgorithm="RC2"`), password, ErrUnsupported},
		{"a certificate first", changed(locked, `uri="http://schemas.microsoft.com/office/2006/keyEncryptor/password"`, `uri="http://schemas.microsoft.com/office/2006/keyEncryptor/certific"`), password, ErrUnsupported},
		{"nothing", nil, password, ErrDamaged},
		{"text", []byte("hello"), password, ErrDamaged},
		{"head alone", cut(raw, 512), password, ErrDamaged},
		{"end missing", cut(locked, len(locked)/2), password, ErrDamaged},
		{"unknown hash", changed(locked, `hashAlgorithm="SHA512" saltValue`, `hashAlgorithm="SHA513" saltValue`), password, ErrUnsupported},
		{"unknown scheme", changed(locked, "\x04\x00\x04\x00\x40", "\x04\x00\x03\x00\x40"), password, ErrUnsupported},
	} {
		if _, _, err := Open(c.raw, c.password); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	for _, bad := range []string{"", strings.Repeat("x", 256)} {
		if _, err := Close(sample(t), bad); err == nil {
			t.Errorf("a password of %d letters was accepted", len(bad))
		}
	}
}

func FuzzOpen(f *testing.F) {
	raw, err := Close(sample(f), "a")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(raw, "a")
	f.Add(agile(f, sample(f), "a"), "a")
	f.Add(container(f, map[string][]byte{"Workbook": []byte("x")}), "")
	f.Fuzz(func(t *testing.T, raw []byte, password string) {
		_, known := Inspect(bytes.NewReader(raw))
		plain, scheme, err := Open(raw, password)
		if known != nil && err == nil {
			t.Errorf("opened what Inspect refuses: %v", known)
		}
		if err == nil && (scheme == 0 || len(plain) > len(raw)) {
			t.Errorf("opened to %d bytes of %d in scheme %d", len(plain), len(raw), scheme)
		}
	})
}
