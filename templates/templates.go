// Package templates holds the words of pages and sheets: named blocks of text with
// slots, one folder a language, which users can replace by their own.
//
// A block looks like this:
//
//	{{define "number.range"}}{{/* slots: Low High */}}
//	Likely range {{num 1 .Low}} to {{num 1 .High}}
//	{{end}}
//
// The comment names the slots that the page fills; a block need not use them all.
// Besides slots there are only {{if}}, comparisons, and num, qty and date. A block of
// an [Audience], such as "squad/title", has the slots of "title".
//
// A blank line starts a paragraph, a line that begins with "- " a list item, and
// **two stars** make words bold.
package templates

import (
	"cmp"
	"embed"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"text/template/parse"

	"github.com/agnivade/levenshtein"

	"tenback/templates/wording"
)

//go:embed */*.tmpl
var builtin embed.FS

// reference is the language in which every block exists and declares its slots. What
// other packages declare in English comes from [wording.Declared].
const reference = "en"

// ErrUnknownLanguage is returned by Load for a language without a folder.
var ErrUnknownLanguage = errors.New("no words in this language")

// Set is a language's complete words. It is safe for concurrent use.
type Set struct {
	lang     string
	audience Audience
	blocks   map[string]*block
	own      map[string]*block              // those of the audience, by the key they stand in for
	owns     map[Audience]map[string]*block // the same for every audience
	format   format
	sum      func() string // of all blocks
	heard    func(key, text string)
}

// block is one named text.
type block struct {
	tree  *parse.Tree
	file  string
	slots []string // declared in the reference language
	// fixed is the text of a block without slots or conditions, laid out once.
	fixed   string
	isFixed bool
}

// Languages lists the languages that words exist for.
func Languages() []string {
	entries, _ := builtin.ReadDir(".")
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

// Load reads the words of a language ("en"). If overrideDir is not empty, the
// blocks in its .tmpl files replace those of the same name; where the folder
// has a subfolder named as the language, that one is read.
//
// A block that a language lacks is said in English. Errors name file and line: a
// file that does not parse, a block that no page uses, a slot or helper that does
// not exist.
func Load(lang, overrideDir string) (*Set, error) {
	if !slices.Contains(Languages(), lang) {
		return nil, fmt.Errorf("%w: %q; there are: %s", ErrUnknownLanguage, lang, strings.Join(Languages(), ", "))
	}
	if overrideDir == "" {
		return loadedBuiltin[lang]()
	}
	return load(lang, overrideDir)
}

// loadedBuiltin loads the program's own words of each language once.
var loadedBuiltin = func() map[string]func() (*Set, error) {
	all := map[string]func() (*Set, error){}
	for _, lang := range Languages() {
		all[lang] = sync.OnceValues(func() (*Set, error) { return load(lang, "") })
	}
	return all
}()

// builtinBase is the program's own reference language.
var builtinBase = sync.OnceValues(readBase)

// readBase reads the reference language and the English that Go declares, with
// their slots.
func readBase() (map[string]*block, error) {
	base, err := readFolder(builtin, reference, "templates/"+reference)
	if err != nil {
		return nil, err
	}
	declared, err := parseFile("declared in Go", wording.Declared())
	if err != nil {
		return nil, err
	}
	for key, b := range declared {
		if base[key] != nil {
			return nil, fmt.Errorf("%s: the block %q is declared in Go too; keep one", base[key].file, key)
		}
		base[key] = b
	}
	for key, b := range base {
		b.slots = declaredSlots(b.tree)
		if _, common, ok := commonKey(key); ok {
			if base[common] == nil {
				return nil, fmt.Errorf("%s: there is no block %q for %q to stand in for", b.where(b.tree.Root), common, key)
			}
			b.slots = declaredSlots(base[common].tree)
		}
	}
	return base, nil
}

// load reads a language, and replaces blocks by those of the user's folder, if any.
func load(lang, overrideDir string) (*Set, error) {
	base, err := builtinBase()
	if err != nil {
		return nil, err
	}
	blocks := map[string]*block{}
	for key, b := range base {
		own := *b // each set prepares its own
		blocks[key] = &own
	}
	if lang != reference {
		own, err := readFolder(builtin, lang, "templates/"+lang)
		if err != nil {
			return nil, err
		}
		translate(blocks, own)
	}
	if overrideDir != "" {
		own, err := readOverride(lang, overrideDir)
		if err != nil {
			return nil, err
		}
		if err := replace(blocks, own); err != nil {
			return nil, err
		}
	}
	s := &Set{lang: lang, blocks: blocks}
	return s, s.prepare()
}

// translate replaces the English blocks by those of a language. A block that the
// language lacks stays English; one of an audience gives way to the translated block
// of all. It returns the keys that the language lacks, and those that nothing uses.
func translate(blocks, own map[string]*block) (missing, unknown []string) {
	for _, key := range slices.Sorted(maps.Keys(blocks)) {
		if own[key] != nil {
			continue
		}
		missing = append(missing, key)
		if _, common, ok := commonKey(key); ok && own[common] != nil {
			delete(blocks, key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(own)) {
		if replace(blocks, map[string]*block{key: own[key]}) != nil {
			unknown = append(unknown, key)
		}
	}
	return missing, unknown
}

// replace replaces blocks by a folder's own, which keep the declared slots.
func replace(blocks, own map[string]*block) error {
	for _, key := range slices.Sorted(maps.Keys(own)) {
		known := blocks[key]
		if _, common, ok := commonKey(key); ok && known == nil {
			known = blocks[common]
		}
		if known == nil {
			return fmt.Errorf("%s: no page uses a block named %q%s", own[key].where(own[key].tree.Root), key, nearest(key, blocks))
		}
		own[key].slots = known.slots
		blocks[key] = own[key]
	}
	return nil
}

// nearestMost bounds the keys offered for a mistyped one.
const nearestMost = 5

// nearest returns the keys nearest to a mistyped one, of those that share its first
// part if there are any.
func nearest(key string, blocks map[string]*block) string {
	if _, common, ok := commonKey(key); ok {
		key = common
	}
	all := slices.Sorted(maps.Keys(blocks))
	family, _, _ := strings.Cut(key, ".")
	alike := slices.DeleteFunc(slices.Clone(all), func(k string) bool { return !strings.HasPrefix(k, family+".") })
	if len(alike) == 0 {
		alike = all
	}
	slices.SortStableFunc(alike, func(a, b string) int {
		return cmp.Compare(levenshtein.ComputeDistance(key, a), levenshtein.ComputeDistance(key, b))
	})
	return "; the nearest are " + strings.Join(alike[:min(nearestMost, len(alike))], ", ")
}

// prepare checks every block and makes it ready.
func (s *Set) prepare() error {
	s.owns = map[Audience]map[string]*block{}
	for _, a := range Audiences() {
		s.owns[a] = map[string]*block{}
	}
	for _, key := range slices.Sorted(maps.Keys(s.blocks)) {
		b := s.blocks[key]
		if audience, common, ok := commonKey(key); ok {
			s.owns[audience][common] = b
		}
		if err := b.check(key); err != nil {
			return err
		}
		if isFixed(b.tree) {
			f := filling{block: b}
			if err := f.execute(b.tree.Root); err != nil {
				return err
			}
			b.fixed, b.isFixed = layOut(f.String()), true
		}
	}
	s.sum = sync.OnceValue(s.sumUp)
	return s.readFormat()
}

func isFixed(tree *parse.Tree) bool {
	return !slices.ContainsFunc(tree.Root.Nodes, func(n parse.Node) bool {
		return n.Type() != parse.NodeText && n.Type() != parse.NodeComment
	})
}

// Lang is the language of the words, as a language tag.
func (s *Set) Lang() string { return s.lang }

// Keys lists every block.
func (s *Set) Keys() []string { return slices.Sorted(maps.Keys(s.blocks)) }

// Slots lists the slots of a block.
func (s *Set) Slots(key string) []string {
	if b := s.blocks[key]; b != nil {
		return b.slots
	}
	return nil
}

// Heard returns a copy of s that passes each block it says to heard. Tests use it
// to learn what a document says.
func (s *Set) Heard(heard func(key, text string)) *Set {
	c := *s
	c.heard = heard
	return &c
}

// Say fills a block's slots and returns its text, one line a paragraph or list item.
// An unknown key is an error, and so is a slot that the block uses and slots lacks.
func (s *Set) Say(key string, slots map[string]any) (string, error) {
	text, err := s.say(key, slots)
	if s.heard != nil {
		s.heard(s.Key(key), text)
	}
	return text, err
}

func (s *Set) say(key string, slots map[string]any) (string, error) {
	b := s.own[key]
	if b == nil {
		b = s.blocks[key]
	}
	if b == nil {
		return "", fmt.Errorf("there is no block named %q", key)
	}
	if b.isFixed {
		return b.fixed, nil
	}
	f := filling{set: s, block: b, slots: slots}
	if err := f.execute(b.tree.Root); err != nil {
		return "", err
	}
	return layOut(f.String()), nil
}

// layOut joins the lines of each paragraph and folds plain spaces, but no thin or
// no-break ones.
func layOut(text string) string {
	if line := strings.Trim(text, "\n"); isLaidOut(line) {
		return line
	}
	var paragraphs []string
	fresh := true
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.Join(strings.FieldsFunc(line, isPlainSpace), " ")
		switch {
		case line == "":
		case fresh || strings.HasPrefix(line, "- "):
			paragraphs = append(paragraphs, line)
		default:
			paragraphs[len(paragraphs)-1] += " " + line
		}
		fresh = line == ""
	}
	return strings.Join(paragraphs, "\n")
}

// isLaidOut reports whether a text is one line with nothing to fold.
func isLaidOut(line string) bool {
	after := ' '
	for _, c := range line {
		if c == '\n' || isPlainSpace(c) && (c != ' ' || after == ' ') {
			return false
		}
		after = c
	}
	return after != ' ' || line == ""
}

func isPlainSpace(c rune) bool { return c == ' ' || c == '\t' || c == '\r' }
