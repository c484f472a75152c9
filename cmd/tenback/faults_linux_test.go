package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk without room: the roster stays, nothing half written has a final
// name, the error says what is wrong, and with room again the run ends well.
func TestDiskFull(t *testing.T) {
	roster := demoIn(t, t.TempDir())
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=512k"); err != nil {
		t.Skipf("a small disk can be mounted by the administrator only: %v", err)
	}
	defer func() {
		if err := syscall.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	}()
	data, err := os.ReadFile(roster)
	if err != nil {
		t.Fatal(err)
	}
	full := filepath.Join(disk, "quillhaven.xlsx")
	if err := os.WriteFile(full, data, 0o600); err != nil {
		t.Fatal(err)
	}
	before := sum(t, full)
	for _, args := range [][]string{{"run", full}, {"run", full, "--in-place"}} {
		out, err := command(args...).CombinedOutput()
		if err == nil || !strings.Contains(string(out), "no space left on device") {
			t.Errorf("%v: %v: %s", args, err, out)
		}
		if sum(t, full) != before {
			t.Fatalf("%v: the roster is another one", args)
		}
		noHalfFiles(t, disk, nil)
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT, "size=64m"); err != nil {
		t.Fatal(err)
	}
	finish(t, command("run", full))
	pagesOf(t, filepath.Join(disk, "quillhaven-reports"))
}

// Folders and files that may not be written or read are told of by name.
func TestNoPermission(t *testing.T) {
	base, err := os.MkdirTemp("", "tenback-faults-*") // open to everybody, unlike t.TempDir
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = os.RemoveAll(base) }() // the system clears what is left
	program := filepath.Join(base, "tenback")
	copyProgram(t, program)
	work := filepath.Join(base, "work")
	if err := os.Mkdir(work, 0o700); err != nil {
		t.Fatal(err)
	}
	roster := demoIn(t, work)
	// Permissions do not hold for the administrator, so somebody else runs it.
	ordinary := &syscall.SysProcAttr{}
	if os.Getuid() == 0 {
		ordinary.Credential = &syscall.Credential{Uid: 65534, Gid: 65534}
		for _, path := range []string{base, work, roster, program} {
			if err := os.Chown(path, 65534, 65534); err != nil {
				t.Fatal(err)
			}
		}
	}
	run := func(args ...string) (string, error) {
		cmd := exec.Command(program, args...)
		cmd.SysProcAttr = ordinary
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	for _, c := range []struct {
		name         string
		folder, file os.FileMode
		want         string
	}{
		{"folder not to be written to", 0o500, 0o600, "cannot write into " + work},
		{"roster not to be read", 0o700, 0o000, "you have no permission to read the file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for path, mode := range map[string]os.FileMode{work: c.folder, roster: c.file} {
				if err := os.Chmod(path, mode); err != nil {
					t.Fatal(err)
				}
			}
			if out, err := run("run", roster); err == nil || !strings.Contains(out, c.want) {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
	for path, mode := range map[string]os.FileMode{work: 0o700, roster: 0o400} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := run("run", roster, "--in-place"); err == nil || !strings.Contains(out, "write-protected") {
		t.Errorf("a write-protected roster in place: %v: %s", err, out)
	}
	cmd := exec.Command(program, "run", roster)
	cmd.SysProcAttr = ordinary
	finish(t, cmd)
}

func copyProgram(t *testing.T, to string) {
	t.Helper()
	from, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(from)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
}
