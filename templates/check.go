package templates

import (
	"fmt"
	"slices"
	"strings"
	"text/template/parse"
)

// allowedFuncs is all that a block may call: no loops, no printing by format,
// nothing that could run long or reach beyond the slots.
var allowedFuncs = []string{"and", "or", "not", "eq", "ne", "lt", "le", "gt", "ge", "num", "qty", "date"}

// parseFuncs lets the parser know the allowed names.
var parseFuncs = func() map[string]any {
	known := map[string]any{}
	for _, name := range allowedFuncs {
		known[name] = true
	}
	return known
}()

// check holds a block to the slots and helpers that exist.
func (b *block) check(key string) error {
	return b.checkNode(key, b.tree.Root)
}

func (b *block) checkNode(key string, node parse.Node) error {
	switch n := node.(type) {
	case *parse.ListNode:
		if n == nil {
			return nil
		}
		for _, child := range n.Nodes {
			if err := b.checkNode(key, child); err != nil {
				return err
			}
		}
	case *parse.ActionNode:
		return b.checkNode(key, n.Pipe)
	case *parse.IfNode:
		for _, child := range []parse.Node{n.Pipe, n.List, n.ElseList} {
			if err := b.checkNode(key, child); err != nil {
				return err
			}
		}
	case *parse.PipeNode:
		if len(n.Decl) > 0 {
			return fmt.Errorf("%s: the block %q sets a variable; use the slots as they are", b.where(n), key)
		}
		for _, command := range n.Cmds {
			for _, arg := range command.Args {
				if err := b.checkNode(key, arg); err != nil {
					return err
				}
			}
		}
	case *parse.FieldNode:
		if len(n.Ident) != 1 || !slices.Contains(b.slots, n.Ident[0]) {
			return fmt.Errorf("%s: the block %q has no slot .%s; %s", b.where(n), key, strings.Join(n.Ident, "."), b.offer())
		}
	case *parse.TextNode, *parse.CommentNode, *parse.IdentifierNode,
		*parse.StringNode, *parse.NumberNode, *parse.BoolNode:
	default:
		return fmt.Errorf("%s: the block %q uses %s; only slots, {{if}} and %s are allowed",
			b.where(node), key, node, strings.Join(allowedFuncs, ", "))
	}
	return nil
}

// offer tells which slots there are.
func (b *block) offer() string {
	if len(b.slots) == 0 {
		return "it has no slots"
	}
	return "its slots are ." + strings.Join(b.slots, ", .")
}
