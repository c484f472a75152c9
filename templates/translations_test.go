package templates_test

import (
	"testing"

	"tenback/templates"
	_ "tenback/workbook" // declares the words for rosters
)

// TestTranslationsAreWhole names the blocks that each language still has to
// translate, and those that no longer exist.
func TestTranslationsAreWhole(t *testing.T) {
	for _, lang := range templates.Languages() {
		if lang == "en" {
			continue
		}
		missing, unknown, err := templates.Untranslated(lang)
		if err != nil || len(missing) > 0 || len(unknown) > 0 {
			t.Errorf("templates/%s: not translated: %q; not in use: %q; %v", lang, missing, unknown, err)
		}
	}
}
