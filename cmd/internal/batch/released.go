package batch

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"tenback/cmd/internal/terminal"
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

// errExposes is the error for a summary that could expose someone beside earlier ones.
var errExposes = errors.New("beside a summary of this round that was made before, this one could expose someone: who came, left or changed in between could be worked out")

// Release holds a summary against the earlier ones of its round, and returns what is
// to be kept of all. replaces takes the place of those of the same round.
func Release(next group.Release, earlier []group.Release, replaces bool) ([]group.Release, error) {
	if replaces {
		earlier = slices.DeleteFunc(earlier, next.SameRound)
	}
	if next.Exposes(earlier) {
		return nil, terminal.Hinted(errExposes, "wait until more people are tested, or show larger groups with --smallest-group, or leave the new people out; if the earlier summary was never handed out, --replaces puts this one in its place")
	}
	return append(earlier, next), nil
}

// KeepReleases writes what Releases reads.
func KeepReleases(path string, all []group.Release) error {
	data, err := json.Marshal(all)
	if err != nil {
		return err
	}
	return safefile.WriteBytes(path, append(data, '\n'))
}
