package group

import "math"

// program is a system of linear equations over numbers that are not negative,
// and what can be said of each number in it: the tool of a reader who puts all
// printed tables together. It is solved by the simplex method (Dantzig), with
// Bland's rule so that it ends.
//
// The numbers are counts of people, whole ones, whose ranges could be narrower
// than those of any numbers. What the tables print makes a chain, and such a
// system is one of flows through a network, whose corners are whole (Hoffman and
// Kruskal), so they are not.
type program struct {
	rows  [][]float64 // coefficients, then the right side
	basis []int       // the number that each row is solved for
	n     int
}

const tiny = 1e-7

// newProgram finds a first solution; ok is false if there is none.
func newProgram(n int, equations []map[int]float64, right []float64) (p *program, ok bool) {
	m := len(equations)
	p = &program{n: n}
	for i, e := range equations {
		row := make([]float64, n+m+1)
		for j, a := range e {
			row[j] = a
		}
		row[n+m] = right[i]
		if right[i] < 0 {
			for j := range row {
				row[j] = -row[j]
			}
		}
		row[n+i] = 1 // a helper, to be got rid of
		p.rows = append(p.rows, row)
		p.basis = append(p.basis, n+i)
	}
	goal := make([]float64, n+m)
	for i := range m {
		goal[n+i] = -1
	}
	if best := p.maximise(goal); best < -tiny {
		return nil, false
	}
	// A helper that is left stands at nothing: solve its row for a real number,
	// or drop it as an equation that follows from the others.
	for i := 0; i < len(p.rows); i++ {
		if p.basis[i] < n {
			continue
		}
		j := 0
		for j < n && math.Abs(p.rows[i][j]) < tiny {
			j++
		}
		if j < n {
			p.solveFor(i, j)
			continue
		}
		last := len(p.rows) - 1
		p.rows[i], p.basis[i] = p.rows[last], p.basis[last]
		p.rows, p.basis = p.rows[:last], p.basis[:last]
		i--
	}
	for i, row := range p.rows {
		p.rows[i] = append(row[:n:n], row[n+m])
	}
	return p, true
}

func (p *program) solveFor(i, j int) {
	pivot := p.rows[i]
	by := pivot[j]
	for k := range pivot {
		pivot[k] /= by
	}
	for r, row := range p.rows {
		if a := row[j]; r != i && a != 0 {
			for k := range row {
				row[k] -= a * pivot[k]
			}
		}
	}
	p.basis[i] = j
}

// maximise gives the largest value of a sum of the numbers; +Inf if it has none.
func (p *program) maximise(goal []float64) float64 {
	for {
		right := len(p.rows[0]) - 1
		enter := -1
		for j := range right {
			gain := goal[j]
			for i, row := range p.rows {
				gain -= goal[p.basis[i]] * row[j]
			}
			if gain > tiny {
				enter = j
				break
			}
		}
		if enter < 0 {
			best := 0.0
			for i, row := range p.rows {
				best += goal[p.basis[i]] * row[right]
			}
			return best
		}
		leave, ratio := -1, math.Inf(1)
		for i, row := range p.rows {
			if row[enter] < tiny {
				continue
			}
			r := row[right] / row[enter]
			if r < ratio-tiny || r < ratio+tiny && p.basis[i] < p.basis[leave] {
				leave, ratio = i, r
			}
		}
		if leave < 0 {
			return math.Inf(1)
		}
		p.solveFor(leave, enter)
	}
}

// bounds is what can be said of one number.
func (p *program) bounds(j int) (low, high float64) {
	goal := make([]float64, p.n)
	goal[j] = 1
	high = p.maximise(goal)
	goal[j] = -1
	low = -p.maximise(goal)
	return low, high
}
