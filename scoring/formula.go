package scoring

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
)

// formula is an equation compiled from the text that is also printed, so that
// what is shown as the working is what was computed.
//
// The text uses numbers, symbols, + - * / ( ), exp(x) and min(x, y). A square is written
// as a product.
type formula struct {
	text    string
	tree    ast.Expr
	program []instruction
}

// instruction is one step of a stack program: the tree walk and its
// allocations are paid once, at compile time.
type instruction struct {
	op   byte // 'n' number, 's' symbol slot, + - * / , '~' negate, 'e' exp, 'm' min
	num  float64
	slot int
}

// compile reads a formula whose symbols are found at the given slots.
func compile(text string, slots map[string]int) (*formula, error) {
	tree, err := parser.ParseExpr(text)
	if err != nil {
		return nil, fmt.Errorf("formula %q: %w", text, err)
	}
	f := &formula{text: text, tree: tree}
	if err := f.emit(tree, slots); err != nil {
		return nil, fmt.Errorf("formula %q: %w", text, err)
	}
	if f.depth() > maxStack {
		return nil, fmt.Errorf("formula %q is nested too deep", text)
	}
	return f, nil
}

// depth is the deepest stack that evaluating the formula takes.
func (f *formula) depth() int {
	top, deepest := 0, 0
	for _, in := range f.program {
		switch in.op {
		case 'n', 's':
			top++
		case '+', '-', '*', '/', 'm':
			top--
		}
		deepest = max(deepest, top)
	}
	return deepest
}

var operators = map[token.Token]byte{token.ADD: '+', token.SUB: '-', token.MUL: '*', token.QUO: '/'}

func (f *formula) emit(node ast.Expr, slots map[string]int) error {
	switch n := node.(type) {
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(n.Value, 64)
		if err != nil {
			return err
		}
		f.program = append(f.program, instruction{op: 'n', num: x})
	case *ast.Ident:
		slot, ok := slots[n.Name]
		if !ok {
			return fmt.Errorf("unknown symbol %s", n.Name)
		}
		f.program = append(f.program, instruction{op: 's', slot: slot})
	case *ast.ParenExpr:
		return f.emit(n.X, slots)
	case *ast.UnaryExpr:
		if n.Op != token.SUB {
			return fmt.Errorf("operator %s", n.Op)
		}
		if err := f.emit(n.X, slots); err != nil {
			return err
		}
		f.program = append(f.program, instruction{op: '~'})
	case *ast.BinaryExpr:
		op, ok := operators[n.Op]
		if !ok {
			return fmt.Errorf("operator %s", n.Op)
		}
		if err := f.emit(n.X, slots); err != nil {
			return err
		}
		if err := f.emit(n.Y, slots); err != nil {
			return err
		}
		f.program = append(f.program, instruction{op: op})
	case *ast.CallExpr:
		name, _ := n.Fun.(*ast.Ident)
		var op byte
		switch {
		case name != nil && !n.Ellipsis.IsValid() && name.Name == "exp" && len(n.Args) == 1:
			op = 'e'
		case name != nil && !n.Ellipsis.IsValid() && name.Name == "min" && len(n.Args) == 2:
			op = 'm'
		default:
			return fmt.Errorf("only exp(x) and min(x, y) may be called")
		}
		for _, arg := range n.Args {
			if err := f.emit(arg, slots); err != nil {
				return err
			}
		}
		f.program = append(f.program, instruction{op: op})
	default:
		return fmt.Errorf("%T is not allowed", node)
	}
	return nil
}

// maxStack bounds the depth of a formula, so that its evaluation needs no heap.
const maxStack = 16

// eval computes the formula on the values in the slots.
func (f *formula) eval(slots []float64) float64 {
	var stack [maxStack]float64
	top := 0
	for _, in := range f.program {
		switch in.op {
		case 'n':
			stack[top] = in.num
			top++
		case 's':
			stack[top] = slots[in.slot]
			top++
		case '~':
			stack[top-1] = -stack[top-1]
		case 'e':
			stack[top-1] = math.Exp(stack[top-1])
		default:
			top--
			switch in.op {
			case 'm':
				stack[top-1] = min(stack[top-1], stack[top])
			case '+':
				stack[top-1] += stack[top]
			case '-':
				stack[top-1] -= stack[top]
			case '*':
				stack[top-1] *= stack[top]
			case '/':
				stack[top-1] /= stack[top]
			}
		}
	}
	return stack[0]
}

// String prints the formula with proper signs and squares.
func (f *formula) String() string {
	return render(f.tree, func(symbol string) string { return symbol })
}

// with prints the formula with numbers in place of the symbols.
func (f *formula) with(number func(symbol string) string) string {
	return render(f.tree, number)
}

func render(node ast.Expr, symbol func(string) string) string {
	var b strings.Builder
	var walk func(ast.Expr)
	walk = func(node ast.Expr) {
		switch n := node.(type) {
		case *ast.BasicLit:
			b.WriteString(n.Value)
		case *ast.Ident:
			b.WriteString(symbol(n.Name))
		case *ast.ParenExpr:
			b.WriteString("(")
			walk(n.X)
			b.WriteString(")")
		case *ast.UnaryExpr:
			b.WriteString("−")
			walk(n.X)
		case *ast.CallExpr:
			b.WriteString(n.Fun.(*ast.Ident).Name + "(")
			for i, arg := range n.Args {
				if i > 0 {
					b.WriteString(", ")
				}
				walk(arg)
			}
			b.WriteString(")")
		case *ast.BinaryExpr:
			if x, ok := n.X.(*ast.Ident); ok && n.Op == token.MUL {
				if y, ok := n.Y.(*ast.Ident); ok && x.Name == y.Name {
					b.WriteString(symbol(x.Name) + "²")
					return
				}
			}
			// a*T*T parses as (a*T)*T
			if left, ok := n.X.(*ast.BinaryExpr); ok && n.Op == token.MUL && left.Op == token.MUL {
				x, xok := left.Y.(*ast.Ident)
				y, yok := n.Y.(*ast.Ident)
				if xok && yok && x.Name == y.Name {
					walk(left.X)
					b.WriteString(" × " + symbol(x.Name) + "²")
					return
				}
			}
			walk(n.X)
			b.WriteString(map[token.Token]string{token.ADD: " + ", token.SUB: " − ", token.MUL: " × ", token.QUO: " / "}[n.Op])
			walk(n.Y)
		}
	}
	walk(node)
	return b.String()
}

// mustCompile compiles a formula that is part of the program; the symbols
// take the slots in the order given.
func mustCompile(text string, symbols ...string) *formula {
	slots := map[string]int{}
	for i, s := range symbols {
		slots[s] = i
	}
	f, err := compile(text, slots)
	if err != nil {
		panic("scoring: " + err.Error())
	}
	return f
}
