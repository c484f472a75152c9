package batch

import (
	"bytes"
	"encoding/json"
	"path/filepath"

	"tenback/workbook"
	"tenback/workbook/roster"
	"tenback/workbook/safefile"
)

// toldFile is the file, in the folder of pages, that holds the settings that their
// messages share. It holds nothing about people.
const toldFile = ".tenback-settings.json"

// toldMost bounds its bytes.
const toldMost = 1 << 16

// told are the settings in the file.
var told = []roster.SettingID{roster.SetOrganisation, roster.SetContact}

// Remember writes the settings that the pages of a folder were made with.
func (f *Folder) Remember(settings roster.SettingValues) error {
	values := map[roster.SettingID]string{}
	for _, id := range told {
		if v, given := settings[id]; given {
			values[id] = v.Value
		}
	}
	data, err := json.Marshal(values)
	if err != nil {
		return err
	}
	path := filepath.Join(f.Path, toldFile)
	data = append(data, '\n')
	if had, err := safefile.ReadPlain(path, toldMost); err == nil && bytes.Equal(had, data) {
		return nil // the file keeps its time
	}
	return safefile.WriteBytes(path, data)
}

// Recall adds what Remember wrote to the settings that a roster does not give. A file
// that is missing or damaged adds nothing, because pages are delivered without it.
func (f *Folder) Recall(r *workbook.Roster) {
	data, err := safefile.ReadPlain(filepath.Join(f.Path, toldFile), toldMost)
	values := map[roster.SettingID]string{}
	if err != nil || json.Unmarshal(data, &values) != nil {
		return
	}
	for _, id := range told {
		if _, given := r.Settings[id]; !given && values[id] != "" {
			r.Settings[id] = roster.SettingValue{Value: values[id]}
		}
	}
}
