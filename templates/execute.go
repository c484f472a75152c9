package templates

import (
	"cmp"
	"fmt"
	"strings"
	"text/template"
	"text/template/parse"
	"time"
)

// Blocks are executed here and only parsed by text/template, which takes three times
// as long for the million blocks of a large roster.

// filling executes a block with its slots filled.
type filling struct {
	strings.Builder
	set   *Set
	block *block
	slots map[string]any
}

func (f *filling) execute(list *parse.ListNode) error {
	if list == nil {
		return nil
	}
	for _, node := range list.Nodes {
		switch n := node.(type) {
		case *parse.TextNode:
			f.Write(n.Text)
		case *parse.ActionNode:
			v, err := f.pipe(n.Pipe)
			if err != nil {
				return fmt.Errorf("%s: %w", f.block.where(n), err)
			}
			if text, ok := v.(string); ok {
				f.WriteString(text)
			} else {
				fmt.Fprint(f, v)
			}
		case *parse.IfNode:
			v, err := f.pipe(n.Pipe)
			if err != nil {
				return fmt.Errorf("%s: %w", f.block.where(n), err)
			}
			branch := n.ElseList
			if isTrue(v) {
				branch = n.List
			}
			if err := f.execute(branch); err != nil {
				return err
			}
		}
	}
	return nil
}

// pipe returns the last command's value; each gets the value before as last argument.
func (f *filling) pipe(n *parse.PipeNode) (v any, err error) {
	for i, command := range n.Cmds {
		if name, ok := command.Args[0].(*parse.IdentifierNode); ok {
			v, err = f.call(name.Ident, command.Args[1:], i > 0, v)
		} else {
			v, err = f.value(command.Args[0])
		}
		if err != nil {
			return nil, err
		}
	}
	return v, nil
}

func (f *filling) value(node parse.Node) (any, error) {
	switch n := node.(type) {
	case *parse.FieldNode:
		v, ok := f.slots[n.Ident[0]]
		if !ok {
			return nil, fmt.Errorf("the slot .%s is not filled", n.Ident[0])
		}
		return v, nil
	case *parse.StringNode:
		return n.Text, nil
	case *parse.NumberNode:
		if n.IsInt {
			return int(n.Int64), nil
		}
		return n.Float64, nil
	case *parse.BoolNode:
		return n.True, nil
	case *parse.PipeNode:
		return f.pipe(n)
	case *parse.IdentifierNode:
		return f.call(n.Ident, nil, false, nil)
	}
	return nil, fmt.Errorf("%s cannot be used here", node)
}

func isTrue(v any) bool {
	truth, _ := template.IsTrue(v)
	return truth
}

func (f *filling) call(name string, nodes []parse.Node, piped bool, last any) (any, error) {
	var few [4]any
	args := few[:0]
	for _, node := range nodes {
		v, err := f.value(node)
		if err != nil {
			return nil, err
		}
		if name == "and" && !isTrue(v) || name == "or" && isTrue(v) {
			return v, nil
		}
		args = append(args, v)
	}
	if piped {
		args = append(args, last)
	}
	switch name {
	case "and", "or":
		return args[len(args)-1], nil
	case "not":
		return !isTrue(args[0]), nil
	case "num", "qty":
		decimals, ok := args[0].(int)
		if !ok {
			return nil, fmt.Errorf("the number of decimals is %v, not a whole number", args[0])
		}
		x, err := number(args[1])
		text := f.set.Number(x, decimals)
		if name == "qty" {
			text += fmt.Sprint(thinSpace, args[2])
		}
		return text, err
	case "date":
		day, ok := args[0].(time.Time)
		if !ok {
			return nil, fmt.Errorf("%v is not a date", args[0])
		}
		return f.set.Date(day)
	}
	return compare(name, args[0], args[1:])
}

// compare compares a with each of b; one that holds is enough.
func compare(name string, a any, b []any) (bool, error) {
	for _, other := range b {
		order, err := compareTwo(a, other)
		if err != nil {
			return false, err
		}
		var holds bool
		switch name {
		case "eq":
			holds = order == 0
		case "ne":
			holds = order != 0
		case "lt":
			holds = order < 0
		case "le":
			holds = order <= 0
		case "gt":
			holds = order > 0
		case "ge":
			holds = order >= 0
		}
		if holds {
			return true, nil
		}
	}
	return false, nil
}

func compareTwo(a, b any) (int, error) {
	switch x := a.(type) {
	case string:
		if y, ok := b.(string); ok {
			return cmp.Compare(x, y), nil
		}
	case bool:
		if y, ok := b.(bool); ok && x == y {
			return 0, nil
		} else if ok {
			return 1, nil
		}
	default:
		x1, err1 := number(a)
		y1, err2 := number(b)
		if err1 == nil && err2 == nil {
			return cmp.Compare(x1, y1), nil
		}
	}
	return 0, fmt.Errorf("%v and %v cannot be compared", a, b)
}
