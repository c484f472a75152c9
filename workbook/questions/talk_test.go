package questions

import (
	"path/filepath"
	"reflect"
	"testing"

	"tenback/templates"
	"tenback/workbook/locked"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

func talkSample() *TalkList {
	return &TalkList{[]TalkLine{{"8B", "F7", "Ida O'Neil", "Symptoms; Asthma", "A clinician first", "=talked"}, {"8B", "F9", "Jo", "Asthma", "Talk first", ""}}}
}

// TestTalkListRoundTrip holds that a list is read as written in every language, with
// the password of the roster.
func TestTalkListRoundTrip(t *testing.T) {
	for lang, words := range sheetwords.Builtin() {
		path := filepath.Join(t.TempDir(), "week-talk-first.xlsx")
		r := &roster.Roster{Path: "week.xlsx", In: roster.Container{Scheme: locked.Agile, Password: "harbour"}}
		saveTalk(t, talkSample(), path, r, words)
		if _, err := OpenTalkList(path, func() (string, error) { return "other", nil }); err == nil {
			t.Errorf("%s: read without the password", lang)
		}
		got, err := OpenTalkList(path, func() (string, error) { return "harbour", nil })
		if err != nil || !reflect.DeepEqual(got, talkSample()) {
			t.Errorf("%s: read %#v, %v", lang, got, err)
		}
	}
}

func saveTalk(t *testing.T, l *TalkList, path string, r *roster.Roster, words *templates.Set) {
	t.Helper()
	if err := l.Save(path, r, words); err != nil {
		t.Fatal(err)
	}
}

// TestTalkListKeep holds that an outcome stays beside the reasons that it answers: it
// moves with its person, and new reasons need a new talk.
func TestTalkListKeep(t *testing.T) {
	now := &TalkList{[]TalkLine{
		{"8B", "F9", "Ida O'Neil", "Symptoms; Asthma", "A clinician first", ""}, // two rows down
		{"8B", "F11", "Twin", "Asthma", "Talk first", ""},
		{"8B", "F12", "Twin", "Asthma", "Talk first", ""},
		{"8B", "F13", "Jo", "Symptoms", "A clinician first", ""},
	}}
	old := &TalkList{[]TalkLine{
		{"8B", "F7", "Ida O'Neil", "Beschwerden; Asthma", "x", "seen by Dr Fell"},
		{"8B", "F12", "Twin", "Asthma", "x", "has an inhaler"},
		{"8B", "F13", "Jo", "Asthma", "x", "fine"},
		{"8B", "F14", "Gone", "Asthma", "x", "left"},
		{"8B", "F15", "Al", "Asthma", "x", ""},
	}}
	now.Keep(old, func(i int, reasons string) bool {
		return reasons == now.Lines[i].Reasons || i == 0 && reasons == "Beschwerden; Asthma"
	})
	var got []string
	for _, l := range now.Lines {
		got = append(got, l.Cells+" "+l.Person+": "+l.Outcome)
	}
	want := []string{"F9 Ida O'Neil: seen by Dr Fell", "F11 Twin: ", "F12 Twin: has an inhaler", "F13 Jo: ", "F13 Jo: fine", "F14 Gone: left"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%q", got)
	}
	if gone := now.Forget(func(name string) bool { return name == "Jo" }); gone != 2 || len(now.Lines) != 4 {
		t.Errorf("%d forgotten, %d left", gone, len(now.Lines))
	}
}
