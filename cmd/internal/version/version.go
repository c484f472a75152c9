// Package version tells which program made a page.
package version

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// Number is the program's version.
const Number = "0.1.0"

// Made is the day on which this version was made. A computer whose date is
// before it is set wrong.
var Made = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// Program is the name and version, for the foot of a page.
func Program() string { return "tenback " + Number }

// Build tells this very program from every other, also where both have the same
// version: a sum over the program's own file, in which its tables, words and
// fonts lie too.
var Build = sync.OnceValues(func() (string, error) {
	sum, err := sumOfProgram()
	if err != nil {
		return "", fmt.Errorf("the program cannot read its own file: %w", err)
	}
	return hex.EncodeToString(sum), nil
})

func sumOfProgram() ([]byte, error) {
	path, err := os.Executable()
	if err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return nil, err
	}
	return sum.Sum(nil), nil
}
