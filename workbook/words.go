package workbook

import (
	"strings"
	"sync"

	"tenback/templates"
	"tenback/templates/wording"
)

// sheetWords say what is written into a workbook. The first thing that goes
// wrong is kept in err, so that cells are filled without a check at each. It is
// safe for use by several goroutines at once.
type sheetWords struct {
	wording.Words
	set  *templates.Set
	said func(key string) // told of every block that is said; nil for nobody
	mu   sync.Mutex
	err  error
}

// wordsOf are the words of a set; of nil, the English ones.
func wordsOf(set *templates.Set) *sheetWords {
	if set == nil {
		set = builtin()[english]
	}
	w := &sheetWords{set: set}
	w.Words = wording.Words{Say: w.say, Number: set.Number, Space: " "}
	return w
}

func (w *sheetWords) say(key string, slots wording.Slots) string {
	if w.said != nil {
		w.mu.Lock()
		w.said(key)
		w.mu.Unlock()
	}
	text, err := w.set.Say(key, slots)
	if err != nil {
		w.fail(err)
	}
	return text
}

func (w *sheetWords) fail(err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.err == nil {
		w.err = err
	}
}

// failure is the first thing that went wrong.
func (w *sheetWords) failure() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.err
}

// oneLine says a block whose paragraphs go into one cell.
func (w *sheetWords) oneLine(key string, slots wording.Slots) string {
	return strings.ReplaceAll(w.say(key, slots), "\n", " ")
}

const english = "en"

// builtin are the words of every language as they come with the program, by
// which what an earlier run or a starter roster wrote is known again, whatever
// language it was in.
var builtin = sync.OnceValue(func() map[string]*templates.Set {
	all := map[string]*templates.Set{}
	var mu sync.Mutex
	var wait sync.WaitGroup
	for _, lang := range templates.Languages() {
		wait.Go(func() {
			set, err := templates.Load(lang, "")
			if err != nil {
				panic("workbook: words: " + err.Error()) // a fault in the program; every test run meets it
			}
			mu.Lock()
			defer mu.Unlock()
			all[lang] = set
		})
	}
	wait.Wait()
	return all
})

// everyWord lists what a block without slots says in each language.
func everyWord(key string) []string {
	var all []string
	for _, lang := range templates.Languages() {
		all = append(all, wordsOf(builtin()[lang]).say(key, nil))
	}
	return all
}
