package templates

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"text/template/parse"
)

// maxFileBytes bounds a file of words; a book would fit.
const maxFileBytes = 1 << 20

// readOverride reads the user's own folder.
func readOverride(lang, dir string) (map[string]*block, error) {
	if sub := filepath.Join(dir, lang); isFolder(sub) {
		dir = sub
	}
	if !isFolder(dir) {
		return nil, fmt.Errorf("%s: this folder of words does not exist; give the folder that holds the .tmpl files", dir)
	}
	own, err := readFolder(os.DirFS(dir), ".", dir)
	if err == nil && len(own) == 0 {
		err = fmt.Errorf("%s: no .tmpl file with words in this folder", dir)
	}
	return own, err
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// readFolder parses every .tmpl file of a folder, which errors call shown.
func readFolder(files fs.FS, dir, shown string) (map[string]*block, error) {
	names, err := fs.Glob(files, path.Join(dir, "*.tmpl"))
	if err != nil {
		return nil, err
	}
	all := map[string]*block{}
	for _, name := range names {
		file := filepath.Join(shown, path.Base(name))
		text, err := readFile(files, name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		blocks, err := parseFile(file, text)
		if err != nil {
			return nil, err
		}
		for key, b := range blocks {
			if other := all[key]; other != nil {
				return nil, fmt.Errorf("%s: the block %q is also in %s; keep one", b.where(b.tree.Root), key, other.file)
			}
			all[key] = b
		}
	}
	return all, nil
}

// readFile reads a plain file, because a pipe or a device may never end.
func readFile(files fs.FS, name string) (string, error) {
	info, err := fs.Stat(files, name)
	switch {
	case err != nil:
		return "", err
	case !info.Mode().IsRegular():
		return "", errors.New("it is not a plain file")
	case info.Size() > maxFileBytes:
		return "", fmt.Errorf("larger than %d bytes", maxFileBytes)
	}
	text, err := fs.ReadFile(files, name)
	return string(text), err
}

// parseFile reads one file's blocks.
func parseFile(file, text string) (map[string]*block, error) {
	trees := map[string]*parse.Tree{}
	top := parse.New(file)
	top.Mode = parse.ParseComments
	top, err := top.Parse(text, "", "", trees, parseFuncs)
	if err != nil {
		return nil, errors.New(strings.TrimPrefix(err.Error(), "template: "))
	}
	delete(trees, file)
	outside := &block{tree: top, file: file}
	for _, node := range top.Root.Nodes {
		if node.Type() == parse.NodeComment {
			continue
		}
		if n, ok := node.(*parse.TextNode); ok && strings.TrimSpace(string(n.Text)) == "" {
			continue
		}
		return nil, fmt.Errorf("%s: words outside a block; put them between {{define \"name\"}} and {{end}}", outside.where(node))
	}
	blocks := map[string]*block{}
	for key, tree := range trees {
		blocks[key] = &block{tree: tree, file: file}
	}
	return blocks, nil
}

// where is the file and line of a node.
func (b *block) where(n parse.Node) string {
	location, _ := b.tree.ErrorContext(n)
	// "file:line:column"
	if i := strings.LastIndexByte(location, ':'); i > 0 {
		location = location[:i]
	}
	return location
}

// declaredSlots reads the comment that names a block's slots.
func declaredSlots(tree *parse.Tree) []string {
	for _, node := range tree.Root.Nodes {
		if c, ok := node.(*parse.CommentNode); ok {
			text := strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(c.Text, "/*"), "*/"))
			if names, ok := strings.CutPrefix(text, "slots:"); ok {
				return strings.Fields(names)
			}
		}
	}
	return nil
}
