package kit

import (
	"bytes"
	"testing"
)

// FuzzReadKey: a key is read only from a file that names one.
func FuzzReadKey(f *testing.F) {
	for _, file := range []string{"/Keywords (tenback person 00ff)\n", "/Keywords (tenback person ab)\n/Keywords (tenback person cd)\n",
		"/Keywords (tenback person )\n", "x /Keywords (tenback person ab)\n", "/Keywords (tenback person ab) /Author (x)\n", "%PDF-1.3\n"} {
		f.Add([]byte(file))
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		key, err := ReadKey(file)
		if (key == "") != (err != nil) || CheckKey(key) != nil {
			t.Fatalf("key %q, error %v", key, err)
		}
		if line := []byte("/Keywords (" + keyMark + key + ")"); err == nil && bytes.Count(file, line) != 1 {
			t.Errorf("key %q, which the file does not name once", key)
		}
	})
}
