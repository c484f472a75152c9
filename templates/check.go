package templates

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"text/template/parse"
)

// helpers are all that a block may call, with the least and the most arguments:
// no loops, no printing by format, nothing that could run long or reach beyond the
// slots.
var helpers = map[string]struct{ least, most int }{
	"and": {1, 99}, "or": {1, 99}, "not": {1, 1},
	"eq": {2, 99}, "ne": {2, 2}, "lt": {2, 2}, "le": {2, 2}, "gt": {2, 2}, "ge": {2, 2},
	"num": {2, 2}, "qty": {3, 3}, "date": {1, 1},
}

// parseFuncs lets the parser know the names of the helpers.
var parseFuncs = func() map[string]any {
	known := map[string]any{}
	for name := range helpers {
		known[name] = true
	}
	return known
}()

// check returns the first slot or helper of a block that does not exist.
func (b *block) check(key string) error {
	return b.checkNode(key, b.tree.Root)
}

func (b *block) checkNode(key string, node parse.Node) error {
	var parts []parse.Node
	switch n := node.(type) {
	case *parse.ListNode:
		if n != nil {
			parts = n.Nodes
		}
	case *parse.ActionNode:
		parts = []parse.Node{n.Pipe}
	case *parse.IfNode:
		parts = []parse.Node{n.Pipe, n.List, n.ElseList}
	case *parse.PipeNode:
		if len(n.Decl) > 0 {
			return fmt.Errorf("%s: the block %q sets a variable; use the slots as they are", b.where(n), key)
		}
		for i, command := range n.Cmds {
			if err := b.checkCommand(key, command, i > 0); err != nil {
				return err
			}
			parts = append(parts, command.Args...)
		}
	case *parse.FieldNode:
		if len(n.Ident) != 1 || !slices.Contains(b.slots, n.Ident[0]) {
			return fmt.Errorf("%s: the block %q has no slot .%s; %s", b.where(n), key, strings.Join(n.Ident, "."), b.offer())
		}
	case *parse.TextNode, *parse.CommentNode, *parse.IdentifierNode,
		*parse.StringNode, *parse.NumberNode, *parse.BoolNode:
	default:
		return fmt.Errorf("%s: the block %q uses %s; only slots, {{if}} and %s are allowed",
			b.where(node), key, node, strings.Join(slices.Sorted(maps.Keys(helpers)), ", "))
	}
	for _, part := range parts {
		if err := b.checkNode(key, part); err != nil {
			return err
		}
	}
	return nil
}

// checkCommand checks the number of arguments. A piped command gets one more.
func (b *block) checkCommand(key string, n *parse.CommandNode, piped bool) error {
	given, takes := len(n.Args)-1, struct{ least, most int }{}
	name, isCall := n.Args[0].(*parse.IdentifierNode)
	if isCall {
		takes = helpers[name.Ident]
	}
	if piped {
		given++
	}
	if given < takes.least || given > takes.most {
		return fmt.Errorf("%s: the block %q gives %s %d values", b.where(n), key, n.Args[0], given)
	}
	return nil
}

// offer lists the slots for an error.
func (b *block) offer() string {
	if len(b.slots) == 0 {
		return "it has no slots"
	}
	return "its slots are ." + strings.Join(b.slots, ", .")
}
