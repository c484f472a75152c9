package kit

// StretchesOf splits people into stretches with the same key.
func StretchesOf[P any](people []P, key func(P) string) [][]P {
	var all [][]P
	from := 0
	for i := range people {
		if i+1 == len(people) || key(people[i]) != key(people[i+1]) {
			all, from = append(all, people[from:i+1]), i+1
		}
	}
	return all
}

// EachOnce reports whether no two stretches have the same key.
func EachOnce[P any](stretches [][]P, key func(P) string) bool {
	seen := map[string]bool{}
	for _, s := range stretches {
		if seen[key(s[0])] {
			return false
		}
		seen[key(s[0])] = true
	}
	return true
}
