package templates

import (
	"strings"
	"text/template/parse"
)

// Literal returns the words of a block without its slots. They are those of every
// condition.
func (s *Set) Literal(key string) string {
	var b strings.Builder
	if block := s.blocks[key]; block != nil {
		literal(&b, block.tree.Root)
	}
	return b.String()
}

func literal(b *strings.Builder, list *parse.ListNode) {
	if list == nil {
		return
	}
	for _, node := range list.Nodes {
		switch n := node.(type) {
		case *parse.TextNode:
			b.Write(n.Text)
		case *parse.ActionNode:
			b.WriteByte(' ')
		case *parse.IfNode:
			literal(b, n.List)
			b.WriteByte(' ')
			literal(b, n.ElseList)
		}
	}
}
