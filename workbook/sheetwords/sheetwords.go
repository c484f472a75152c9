// Package sheetwords holds the words that are written into a workbook, in each
// language.
package sheetwords

import (
	"strings"
	"sync"

	"tenback/templates"
	"tenback/templates/wording"
)

// Words returns the texts of blocks. It keeps the first error for
// [Words.Failure], because cells are filled without a check at each. It is safe
// for concurrent use.
type Words struct {
	wording.Words
	Set *templates.Set
	// Heard is called with the key of each block that is said, if not nil.
	Heard func(key string)
	mu    sync.Mutex
	err   error
}

// Of returns the words of a set, or the English ones if set is nil.
func Of(set *templates.Set) *Words {
	if set == nil {
		set = Builtin()[English]
	}
	w := &Words{Set: set}
	w.Words = wording.Words{Say: w.say, Number: set.Number, Space: " "}
	return w
}

func (w *Words) say(key string, slots wording.Slots) string {
	if w.Heard != nil {
		w.mu.Lock()
		w.Heard(key)
		w.mu.Unlock()
	}
	text, err := w.Set.Say(key, slots)
	if err != nil {
		w.fail(err)
	}
	return text
}

func (w *Words) fail(err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.err == nil {
		w.err = err
	}
}

// Failure returns the first error, or nil.
func (w *Words) Failure() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.err
}

// OneLine returns a block with blanks in place of its line breaks, for one cell.
func (w *Words) OneLine(key string, slots wording.Slots) string {
	return strings.ReplaceAll(w.say(key, slots), "\n", " ")
}

// English is the language of [Of] without a set.
const English = "en"

// Builtin returns the words of every language as they come with the program.
// They identify what an earlier run or a starter roster wrote in any language.
var Builtin = sync.OnceValue(func() map[string]*templates.Set {
	all := map[string]*templates.Set{}
	var mu sync.Mutex
	var wait sync.WaitGroup
	for _, lang := range templates.Languages() {
		wait.Go(func() {
			set, err := templates.Load(lang, "")
			if err != nil {
				panic("sheetwords: " + err.Error()) // a fault in the program; every test run meets it
			}
			mu.Lock()
			defer mu.Unlock()
			all[lang] = set
		})
	}
	wait.Wait()
	return all
})

// Every lists the text of a block without slots in each language.
func Every(key string) []string {
	var all []string
	for _, lang := range templates.Languages() {
		all = append(all, Of(Builtin()[lang]).say(key, nil))
	}
	return all
}
