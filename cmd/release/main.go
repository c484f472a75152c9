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
	"io/fs"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"testing/fstest"

	"tenback/cmd/internal/version"
	"tenback/testdata/demo"
	"tenback/workbook/safefile"
)

func main() {
	out := flag.String("out", "dist", "folder for the archives")
	only := flag.String("only", "", "make the archive of one system only, such as linux/amd64")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := release(ctx, *out, *only)
	stop()
	if err != nil {
		fmt.Fprintf(os.Stderr, "release: %v\n", err)
		os.Exit(1)
	}
}

// platforms are the systems that get an archive, as GOOS/GOARCH.
var platforms = []string{"windows/amd64", "windows/arm64", "darwin/amd64", "darwin/arm64", "linux/amd64", "linux/arm64"}

// release writes the archives, or only that of one system, and their checksums.
func release(ctx context.Context, out, only string) error {
	root, err := output(ctx, "", "go", "list", "-m", "-f", "{{.Dir}}")
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
	defer func() { _ = os.RemoveAll(work) }()
	common, err := commonFiles(ctx, strings.TrimSpace(string(root)), work)
	if err != nil {
		return err
	}
	var sums strings.Builder
	for _, p := range platforms {
		if only != "" && only != p {
			continue
		}
		name, archive, err := build(ctx, p, work, common)
		if err != nil {
			return err
		}
		if err := publish(filepath.Join(out, name), archive); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), name)
		fmt.Println(filepath.Join(out, name))
	}
	if sums.Len() == 0 {
		return fmt.Errorf("there is no archive for %q; there are %v", only, platforms)
	}
	return publish(filepath.Join(out, "SHA256SUMS"), []byte(sums.String()))
}

// publish writes a file that everybody may read.
func publish(path string, data []byte) error {
	if err := safefile.WriteBytes(path, data); err != nil {
		return err
	}
	return os.Chmod(path, 0o644)
}

// output runs a command, with the environment of a platform unless that is empty,
// and returns what it prints.
func output(ctx context.Context, platform string, args ...string) ([]byte, error) {
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	if system, processor, ok := strings.Cut(platform, "/"); ok {
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+processor, "GOFLAGS=", "GOAMD64=v1")
	}
	cmd.Stderr = os.Stderr
	data, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", strings.Join(args, " "), err)
	}
	return data, nil
}

// build returns the archive of a platform and its name. Neither the folder nor the
// state of the repository goes into the program.
func build(ctx context.Context, platform, work string, common fstest.MapFS) (name string, archive []byte, err error) {
	base := "tenback-" + version.Number + "-" + strings.ReplaceAll(platform, "/", "-")
	program, name, packed := "tenback", base+".tar.gz", tarOf
	if strings.HasPrefix(platform, "windows/") {
		program, name, packed = "tenback.exe", base+".zip", zipOf
	}
	path := filepath.Join(work, base, program)
	if _, err := output(ctx, platform, "go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", path, "tenback/cmd/tenback"); err != nil {
		return "", nil, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return "", nil, err
	}
	all := fstest.MapFS{base: file(nil, fs.ModeDir|0o755), base + "/completions": file(nil, fs.ModeDir|0o755), base + "/" + program: file(data, 0o755)}
	for name, f := range common {
		all[base+"/"+name] = f
	}
	archive, err = packed(all)
	return name, archive, err
}

// commonFiles returns what every archive holds besides the program.
func commonFiles(ctx context.Context, root, work string) (fstest.MapFS, error) {
	here := filepath.Join(work, "here")
	if _, err := output(ctx, "", "go", "build", "-o", here, "tenback/cmd/tenback"); err != nil {
		return nil, err
	}
	licences, err := thirdParty(ctx)
	if err != nil {
		return nil, err
	}
	all := fstest.MapFS{"THIRD-PARTY.txt": file(licences, 0o644), "sample-roster.xlsx": file(demo.Roster, 0o644)}
	for _, path := range []string{"README.md", "LICENSE", "pdfreport/kit/fonts/OFL.txt"} {
		data, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(path)))
		if err != nil {
			return nil, err
		}
		all[filepath.Base(path)] = file(data, 0o644)
	}
	for name, args := range map[string][]string{
		"tenback.1":                {"manual"},
		"completions/tenback.bash": {"completion", "bash"},
		"completions/_tenback":     {"completion", "zsh"},
		"completions/tenback.fish": {"completion", "fish"},
	} {
		data, err := output(ctx, "", append([]string{here}, args...)...)
		if err != nil {
			return nil, err
		}
		all[name] = file(data, 0o644)
	}
	return all, nil
}
