package batch

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"

	"tenback/scoring/group"
	"tenback/workbook/safefile"
)

// releasedMost bounds the bytes of a file of releases.
const releasedMost = 8 << 20

// Releases reads what summaries of a roster have printed; none without the file.
func Releases(path string) ([]group.Release, error) {
	data, err := safefile.ReadPlain(path, releasedMost)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var all []group.Release
	if err == nil {
		err = json.Unmarshal(data, &all)
	}
	if err != nil {
		return nil, fmt.Errorf("%s cannot be used (%w); it holds what earlier summaries printed, so bring back a sound copy of it, or delete it if none was handed out", path, err)
	}
	return all, nil
}

// KeepReleases writes what Releases reads.
func KeepReleases(path string, all []group.Release) error {
	data, err := json.Marshal(all)
	if err != nil {
		return err
	}
	return safefile.WriteBytes(path, append(data, '\n'))
}
