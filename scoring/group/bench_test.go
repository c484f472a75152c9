package group

import (
	"fmt"
	"testing"
)

// BenchmarkSummarise is a district: fifty thousand people in a thousand classes.
func BenchmarkSummarise(b *testing.B) {
	var members []Member
	for i := range 50000 {
		s := palette[i%len(palette)].member()
		s.Group = fmt.Sprint("class ", i*7919%1000)
		members = append(members, s)
	}
	for b.Loop() {
		if _, err := Summarise(members, DefaultSmallest); err != nil {
			b.Fatal(err)
		}
	}
}
