package templates

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// keyLanguage holds the names by which people call the language, in it and in
// English, each one word.
const keyLanguage = "format.language"

// languageNames is what each language is called.
var languageNames = sync.OnceValue(func() map[string][]string {
	all := map[string][]string{}
	for _, lang := range Languages() {
		// A folder that does not load is told of where it is used.
		if set, err := Load(lang, ""); err == nil {
			names, _ := set.Say(keyLanguage, nil)
			all[lang] = strings.Fields(names)
		}
	}
	return all
})

// FindLanguage tells which language a person means by a tag ("en", "en-GB") or a
// name ("English"), in any case. The error wraps ErrUnknownLanguage and lists the
// languages there are.
func FindLanguage(text string) (lang string, err error) {
	name := strings.TrimSpace(text)
	tag, _, _ := strings.Cut(strings.ReplaceAll(name, "_", "-"), "-")
	for _, lang := range Languages() {
		if strings.EqualFold(tag, lang) || slices.ContainsFunc(languageNames()[lang], func(n string) bool { return strings.EqualFold(n, name) }) {
			return lang, nil
		}
	}
	return "", fmt.Errorf("%w: %q; there are: %s", ErrUnknownLanguage, text, LanguageList())
}

// LanguageList names the languages there are, each by its tag and its names.
func LanguageList() string {
	var all []string
	for _, lang := range Languages() {
		all = append(all, strings.Join(append([]string{lang}, languageNames()[lang]...), " "))
	}
	return strings.Join(all, ", ")
}
