// Release builds what people without Go download: an archive for each system,
// with the program, a sample roster, completions for shells, a manual page and
// the licences, and the checksums of all archives.
//
//	go run ./cmd/release --out DIR
//
// The same source gives the same bytes: no time, user or path goes in.
package main

import (
	"context"
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"

	"tenback/cmd/internal/version"
	"tenback/workbook/safefile"
)

func main() {
	out := flag.String("out", "dist", "folder for the archives")
	only := flag.String("only", "", "make the archive of one system alone, such as linux/amd64")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := release(ctx, *out, *only)
	stop()
	if err != nil {
		fmt.Fprintf(os.Stderr, "release: %v\n", err)
		os.Exit(1)
	}
}

// platforms are the systems that get an archive.
var platforms = []platform{
	{"windows", "amd64"}, {"windows", "arm64"},
	{"darwin", "amd64"}, {"darwin", "arm64"},
	{"linux", "amd64"}, {"linux", "arm64"},
}

type platform struct{ system, processor string }

// program is the file name of the program there.
func (p platform) program() string {
	if p.system == "windows" {
		return "tenback.exe"
	}
	return "tenback"
}

func (p platform) String() string { return p.system + "/" + p.processor }

// release writes the archives, or only that of one system, and their checksums.
func release(ctx context.Context, out, only string) error {
	chosen := slices.DeleteFunc(slices.Clone(platforms), func(p platform) bool { return only != "" && p.String() != only })
	if len(chosen) == 0 {
		return fmt.Errorf("there is no archive for %q; there are %v", only, platforms)
	}
	root, err := goOutput(ctx, "list", "-m", "-f", "{{.Dir}}")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "tenback-release-*")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(work) }() // the system clears what is left
	common, err := commonFiles(ctx, strings.TrimSpace(string(root)), work)
	if err != nil {
		return err
	}
	var sums strings.Builder
	for _, p := range chosen {
		program := filepath.Join(work, p.system+"-"+p.processor, p.program())
		if err := build(ctx, p, program); err != nil {
			return err
		}
		data, err := os.ReadFile(program)
		if err != nil {
			return err
		}
		base := fmt.Sprintf("tenback-%s-%s-%s", version.Number, p.system, p.processor)
		archive, err := pack(p, base, append([]file{{p.program(), data, true}}, common...))
		if err != nil {
			return err
		}
		name := base + ".tar.gz"
		if p.system == "windows" {
			name = base + ".zip"
		}
		if err := publish(filepath.Join(out, name), archive); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), name)
		fmt.Println(filepath.Join(out, name))
	}
	return publish(filepath.Join(out, "SHA256SUMS"), []byte(sums.String()))
}

// publish writes a file that is meant for everybody.
func publish(path string, data []byte) error {
	if err := safefile.WriteBytes(path, data); err != nil {
		return err
	}
	return os.Chmod(path, 0o644)
}
