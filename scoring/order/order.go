// Package order holds what the standard library's cmp leaves out.
package order

// TrueFirst compares for sorting: what is true comes before what is not.
func TrueFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}
