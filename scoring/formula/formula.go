// Package formula compiles the equations of papers from the text that is also
// printed, so that the working shown is what was computed.
package formula

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
	"sync"
)

// Formula is a compiled equation. Its text has numbers, symbols, + - * / ( ),
// exp(x) and min(x, y); a square is written as a product.
type Formula struct {
	tree ast.Expr
	eval value
}

// value computes one node from the values of the symbols.
type value func(slots []float64) float64

// Compile parses a formula whose symbols have the given slots.
func Compile(text string, slots map[string]int) (*Formula, error) {
	tree, err := parser.ParseExpr(text)
	if err != nil {
		return nil, fmt.Errorf("formula %q: %w", text, err)
	}
	eval, err := compile(tree, slots)
	if err != nil {
		return nil, fmt.Errorf("formula %q: %w", text, err)
	}
	return &Formula{tree, eval}, nil
}

// Lazy returns a formula of the program that is compiled on first use; the symbols
// take the slots in the order given. A fault panics, so a test must use each one.
func Lazy(text string, symbols ...string) func() *Formula {
	return sync.OnceValue(func() *Formula {
		slots := map[string]int{}
		for i, s := range symbols {
			slots[s] = i
		}
		f, err := Compile(text, slots)
		if err != nil {
			panic(err.Error())
		}
		return f
	})
}

// Eval computes the formula on the values in the slots.
func (f *Formula) Eval(slots []float64) float64 { return f.eval(slots) }

func compile(node ast.Expr, slots map[string]int) (value, error) {
	switch n := node.(type) {
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(n.Value, 64)
		return func([]float64) float64 { return x }, err
	case *ast.Ident:
		slot, ok := slots[n.Name]
		if !ok {
			return nil, fmt.Errorf("unknown symbol %s", n.Name)
		}
		return func(s []float64) float64 { return s[slot] }, nil
	case *ast.ParenExpr:
		return compile(n.X, slots)
	case *ast.UnaryExpr:
		if n.Op != token.SUB {
			return nil, fmt.Errorf("operator %s", n.Op)
		}
		x, err := compile(n.X, slots)
		return func(s []float64) float64 { return -x(s) }, err
	case *ast.BinaryExpr:
		x, err := compile(n.X, slots)
		if err != nil {
			return nil, err
		}
		y, err := compile(n.Y, slots)
		if err != nil {
			return nil, err
		}
		switch n.Op {
		case token.ADD:
			return func(s []float64) float64 { return x(s) + y(s) }, nil
		case token.SUB:
			return func(s []float64) float64 { return x(s) - y(s) }, nil
		case token.MUL:
			return func(s []float64) float64 { return x(s) * y(s) }, nil
		case token.QUO:
			return func(s []float64) float64 { return x(s) / y(s) }, nil
		}
		return nil, fmt.Errorf("operator %s", n.Op)
	case *ast.CallExpr:
		return compileCall(n, slots)
	}
	return nil, fmt.Errorf("%T is not allowed", node)
}

func compileCall(n *ast.CallExpr, slots map[string]int) (value, error) {
	var args []value
	for _, arg := range n.Args {
		x, err := compile(arg, slots)
		if err != nil {
			return nil, err
		}
		args = append(args, x)
	}
	name, _ := n.Fun.(*ast.Ident)
	switch {
	case name == nil || n.Ellipsis.IsValid():
	case name.Name == "exp" && len(args) == 1:
		return func(s []float64) float64 { return math.Exp(args[0](s)) }, nil
	case name.Name == "min" && len(args) == 2:
		return func(s []float64) float64 { return min(args[0](s), args[1](s)) }, nil
	}
	return nil, fmt.Errorf("only exp(x) and min(x, y) may be called")
}

// String prints the formula with proper signs and squares.
func (f *Formula) String() string {
	return f.With(func(symbol string) string { return symbol })
}

// With prints the formula with number(symbol) in place of each symbol.
func (f *Formula) With(number func(symbol string) string) string {
	p := printer{symbol: number}
	p.print(f.tree)
	return p.String()
}

type printer struct {
	strings.Builder
	symbol func(string) string
}

var signs = map[token.Token]string{token.ADD: " + ", token.SUB: " − ", token.MUL: " × ", token.QUO: " / "}

func (p *printer) print(node ast.Expr) {
	switch n := node.(type) {
	case *ast.BasicLit:
		p.WriteString(n.Value)
	case *ast.Ident:
		p.WriteString(p.symbol(n.Name))
	case *ast.ParenExpr:
		p.WriteString("(")
		p.print(n.X)
		p.WriteString(")")
	case *ast.UnaryExpr:
		p.WriteString("−")
		p.print(n.X)
	case *ast.CallExpr:
		p.WriteString(n.Fun.(*ast.Ident).Name + "(")
		for i, arg := range n.Args {
			if i > 0 {
				p.WriteString(", ")
			}
			p.print(arg)
		}
		p.WriteString(")")
	case *ast.BinaryExpr:
		p.printBinary(n)
	}
}

func (p *printer) printBinary(n *ast.BinaryExpr) {
	left := n.X
	if y, ok := n.Y.(*ast.Ident); ok && n.Op == token.MUL {
		if isSymbol(left, y.Name) {
			p.WriteString(p.symbol(y.Name) + "²")
			return
		}
		// a*T*T is parsed as (a*T)*T.
		if product, ok := left.(*ast.BinaryExpr); ok && product.Op == token.MUL && isSymbol(product.Y, y.Name) {
			p.print(product.X)
			p.WriteString(" × " + p.symbol(y.Name) + "²")
			return
		}
	}
	p.print(left)
	p.WriteString(signs[n.Op])
	p.print(n.Y)
}

func isSymbol(node ast.Expr, name string) bool {
	x, ok := node.(*ast.Ident)
	return ok && x.Name == name
}
