package columns

import (
	"testing"

	"tenback/workbook/cell"
)

func TestParseAgeSex(t *testing.T) {
	for text, want := range map[string][2]string{
		"34/F": {"34", "f"}, "F34": {"34", "f"}, "M 52": {"52", "m"}, "34 yrs, female": {"34", "female"}, "(33, f)": {"33", "f"},
		"f/34": {"34", "f"}, "34,5 w": {"34,5", "w"}, "女 34歳": {"34", "女"}, "34岁/女": {"34", "女"}, "19-M": {"19", "m"},
		"34 y F": {"34", "f"}, "F": {"", "F"}, "34": {"34", ""}, "M ??": {"M ??", ""}, "F34M": {"F34M", ""}, "": {"", ""}, "9b": {"9", "b"},
	} {
		age, sex := ParseAgeSex(cell.Raw{Kind: cell.Text, Text: text})
		if got := [2]string{age.Text, sex.Text}; got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if age, sex := ParseAgeSex(cell.Raw{Kind: cell.Number, Text: "34"}); age.Text != "34" || !sex.IsBlank() {
		t.Errorf("a number is %v and %v", age, sex)
	}
}
