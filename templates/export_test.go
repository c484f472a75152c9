package templates

// Untranslated returns the keys that a language lacks, and those that nothing uses.
func Untranslated(lang string) (missing, unknown []string, err error) {
	base, err := readBase()
	if err != nil {
		return nil, nil, err
	}
	own, err := readFolder(builtin, lang, lang)
	missing, unknown = translate(base, own)
	return missing, unknown, err
}
