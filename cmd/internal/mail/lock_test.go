package mail

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/go-pdf/fpdf"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// samplePage returns a PDF as pages are made, with uncompressed text.
func samplePage(t *testing.T) []byte {
	t.Helper()
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.SetCompression(false)
	pdf.SetTitle("Secret title", true)
	pdf.SetKeywords("tenback person 00ff", false)
	pdf.SetFont("Helvetica", "", 12)
	pdf.AddPage()
	pdf.Cell(100, 20, "Secret text")
	var out bytes.Buffer
	if err := pdf.Output(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestLockPage(t *testing.T) {
	const password = "k7mq-x3vn-9ptr"
	plain := samplePage(t)
	before := bytes.Clone(plain)
	locked, err := LockPage(plain, password)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(plain, before) {
		t.Error("the page that was handed over was changed")
	}
	for _, secret := range []string{"Secret", "person 00ff", "S\x00e\x00c\x00r"} {
		if bytes.Contains(locked, []byte(secret)) {
			t.Errorf("%q can be read", secret)
		}
	}
	open := func(password string) error {
		settings := model.NewAESConfiguration(password, "", keyBits)
		var out bytes.Buffer
		return api.Decrypt(bytes.NewReader(locked), &out, settings)
	}
	if err := open(password); err != nil {
		t.Errorf("the password does not open the page: %v", err)
	}
	for _, wrong := range []string{"", "k7mq-x3vn-9ptR", strings.ToUpper(password)} {
		if open(wrong) == nil {
			t.Errorf("the password %q opens the page", wrong)
		}
	}
	qpdf, err := exec.LookPath("qpdf")
	if err != nil {
		t.Log("qpdf is not installed; .ci/outside opens locked pages with it")
		return
	}
	path := filepath.Join(t.TempDir(), "locked.pdf")
	if err := os.WriteFile(path, locked, 0o600); err != nil {
		t.Fatal(err)
	}
	said, err := exec.Command(qpdf, "--show-encryption", "--password="+password, path).CombinedOutput()
	if err != nil || !strings.Contains(string(said), "R = 6") || !strings.Contains(string(said), "stream encryption method: AESv3") {
		t.Errorf("qpdf: %v\n%s", err, said)
	}
}

func TestLockPageRefuses(t *testing.T) {
	for name, bad := range map[string][]byte{"nothing": nil, "a text": []byte("hello"), "another version": []byte("%PDF-1.7\n")} {
		if _, err := LockPage(bad, "long enough"); err == nil {
			t.Errorf("%s was locked", name)
		}
	}
	for password, ok := range map[string]bool{
		"":                       false,
		"1234567":                false,
		"12345678":               true,
		"a b-c_d!":               true,
		"pässword":               false,
		"tab\tinside":            false,
		strings.Repeat("x", 127): true,
		strings.Repeat("x", 128): false,
	} {
		if doubt := CheckPassword(password); (doubt == nil) != ok {
			t.Errorf("%q: %v", password, doubt)
		}
		if _, err := LockPage(samplePage(t), password); (err == nil) != ok {
			t.Errorf("lock with %q: %v", password, err)
		}
	}
}

func TestNewPassword(t *testing.T) {
	form := regexp.MustCompile(`^[` + passwordLetters + `]{4}-[` + passwordLetters + `]{4}-[` + passwordLetters + `]{4}$`)
	seen := map[string]bool{}
	for range 1000 {
		p, err := NewPassword()
		if err != nil {
			t.Fatal(err)
		}
		if !form.MatchString(p) || CheckPassword(p) != nil || seen[p] {
			t.Fatalf("password %q", p)
		}
		seen[p] = true
	}
}
