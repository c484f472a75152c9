package templates

import (
	"errors"
	"reflect"
	"strconv"
	"strings"
	"text/template"
	"text/template/parse"
	"time"
)

// A roster of a hundred thousand people says some million blocks, and executing
// a template takes as long as scoring. Most blocks are text, slots, the helpers
// and an {{if}} here or there; those are turned into steps once, when the words
// are loaded. A block with anything else, and data that the steps do not expect,
// is left to text/template, which also words the errors.

// step writes a part of a block. Whatever its error, text/template executes the
// whole block again and words it.
type step func(s *Set, out *strings.Builder, data map[string]any) error

// errUnexpected hands a block over to text/template.
var errUnexpected = errors.New("not for the compiled steps")

// compile turns nodes into steps; ok is false where one of them is of another
// kind.
func compile(list *parse.ListNode) (steps []step, ok bool) {
	if list == nil {
		return nil, true
	}
	for _, node := range list.Nodes {
		var next step
		switch n := node.(type) {
		case *parse.CommentNode:
			continue
		case *parse.TextNode:
			text := string(n.Text)
			next = func(_ *Set, out *strings.Builder, _ map[string]any) error {
				out.WriteString(text)
				return nil
			}
		case *parse.ActionNode:
			next = compileAction(n.Pipe)
		case *parse.IfNode:
			next = compileIf(n)
		}
		if next == nil {
			return nil, false
		}
		steps = append(steps, next)
	}
	return steps, true
}

func run(steps []step, s *Set, out *strings.Builder, data map[string]any) error {
	for _, next := range steps {
		if err := next(s, out, data); err != nil {
			return err
		}
	}
	return nil
}

// argsOf are the words of a pipe that is one command.
func argsOf(pipe *parse.PipeNode) []parse.Node {
	if len(pipe.Decl) > 0 || len(pipe.Cmds) != 1 {
		return nil
	}
	return pipe.Cmds[0].Args
}

// slotOf is the slot that a node names; empty if it is no slot.
func slotOf(node parse.Node) string {
	if f, ok := node.(*parse.FieldNode); ok && len(f.Ident) == 1 {
		return f.Ident[0]
	}
	return ""
}

// compileAction compiles a slot, and the helpers num, qty and date with a slot;
// nil for anything else.
func compileAction(pipe *parse.PipeNode) step {
	args := argsOf(pipe)
	switch len(args) {
	case 1:
		if slot := slotOf(args[0]); slot != "" {
			return writeSlot(slot)
		}
	case 2:
		if slot := slotOf(args[1]); slot != "" && isCall(args[0], "date") {
			return func(s *Set, out *strings.Builder, data map[string]any) error {
				day, ok := data[slot].(time.Time)
				if !ok {
					return errUnexpected
				}
				text, err := s.Date(day)
				out.WriteString(text)
				return err
			}
		}
	case 3, 4:
		decimals, isNumber := args[1].(*parse.NumberNode)
		slot := slotOf(args[2])
		unit := ""
		if len(args) == 4 {
			text, ok := args[3].(*parse.StringNode)
			if !ok || !isCall(args[0], "qty") {
				return nil
			}
			unit = thinSpace + text.Text
		} else if !isCall(args[0], "num") {
			return nil
		}
		if slot == "" || !isNumber || !decimals.IsInt {
			return nil
		}
		return func(s *Set, out *strings.Builder, data map[string]any) error {
			x, err := number(data[slot])
			if err != nil {
				return errUnexpected
			}
			out.WriteString(s.Number(x, int(decimals.Int64)))
			out.WriteString(unit)
			return nil
		}
	}
	return nil
}

func isCall(node parse.Node, name string) bool {
	id, ok := node.(*parse.IdentifierNode)
	return ok && id.Ident == name
}

func writeSlot(slot string) step {
	return func(_ *Set, out *strings.Builder, data map[string]any) error {
		switch v := data[slot].(type) {
		case string:
			out.WriteString(v)
		case int:
			out.WriteString(strconv.Itoa(v))
		default:
			return errUnexpected
		}
		return nil
	}
}

// compileIf compiles a condition on a slot, or on a slot that is or is not equal
// to something written out.
func compileIf(n *parse.IfNode) step {
	args := argsOf(n.Pipe)
	then, ok1 := compile(n.List)
	otherwise, ok2 := compile(n.ElseList)
	if !ok1 || !ok2 {
		return nil
	}
	var holds func(data map[string]any) (bool, error)
	switch len(args) {
	case 1:
		slot := slotOf(args[0])
		if slot == "" {
			return nil
		}
		holds = func(data map[string]any) (bool, error) {
			v, known := data[slot]
			if !known {
				return false, errUnexpected
			}
			truth, _ := template.IsTrue(v)
			return truth, nil
		}
	case 3:
		slot, want := slotOf(args[1]), constantOf(args[2])
		same := isCall(args[0], "eq")
		if slot == "" || want == nil || !same && !isCall(args[0], "ne") {
			return nil
		}
		holds = func(data map[string]any) (bool, error) {
			v := data[slot]
			if reflect.TypeOf(v) != reflect.TypeOf(want) {
				return false, errUnexpected
			}
			return (v == want) == same, nil
		}
	default:
		return nil
	}
	return func(s *Set, out *strings.Builder, data map[string]any) error {
		truth, err := holds(data)
		switch {
		case err != nil:
			return err
		case truth:
			return run(then, s, out, data)
		}
		return run(otherwise, s, out, data)
	}
}

// constantOf is what is written out in a comparison, of the type that
// text/template takes it for; nil for anything else.
func constantOf(node parse.Node) any {
	switch n := node.(type) {
	case *parse.StringNode:
		return n.Text
	case *parse.NumberNode:
		switch {
		case n.IsFloat && strings.Contains(n.Text, "."):
			return n.Float64
		case n.IsInt && strings.Trim(n.Text, "0123456789-") == "":
			return int(n.Int64)
		}
	}
	return nil
}
