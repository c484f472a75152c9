package safefile_test

import (
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/windows"

	"tenback/workbook/safefile"
)

// A spreadsheet program opens a workbook with a lock against other writers.
func TestInUse(t *testing.T) {
	path := filepath.Join(t.TempDir(), "roster.xlsx")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	name, err := windows.UTF16PtrFromString(path)
	if err != nil {
		t.Fatal(err)
	}
	held, err := windows.CreateFile(name, windows.GENERIC_READ|windows.GENERIC_WRITE, 0, nil, windows.OPEN_EXISTING, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Open(path); !safefile.InUse(err) {
		t.Errorf("opening: %v is not taken for a file in use", err)
	}
	if err := safefile.WriteBytes(path, []byte("new")); err == nil {
		t.Error("a file in use was replaced")
	}
	if err := windows.CloseHandle(held); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "old" {
		t.Errorf("the file is now %q, %v", got, err)
	}
	if err := safefile.WriteBytes(path, []byte("new")); err != nil {
		t.Errorf("once it is free: %v", err)
	}
}
