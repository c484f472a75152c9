package templates

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// keyLanguage lists the language's names, in it and in English, each one word.
const keyLanguage = "format.language"

// languageNames holds the names of each language.
var languageNames = sync.OnceValue(func() map[string][]string {
	all := map[string][]string{}
	for _, lang := range Languages() {
		if set, err := Load(lang, ""); err == nil {
			names, _ := set.Say(keyLanguage, nil)
			all[lang] = strings.Fields(names)
		}
	}
	return all
})

// FindLanguage returns the language of a tag ("en", "en-GB") or name ("English"), in
// any case. The error wraps ErrUnknownLanguage and lists the languages.
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

// LanguageList lists each language by its tag and names.
func LanguageList() string {
	var all []string
	for _, lang := range Languages() {
		all = append(all, strings.Join(append([]string{lang}, languageNames()[lang]...), " "))
	}
	return strings.Join(all, ", ")
}
