package result

import (
	"runtime"
	"testing"
	"time"
)

func TestAhead(t *testing.T) {
	for _, count := range []int{0, 1, aheadPart - 1, aheadPart, aheadPart + 1, 50 * aheadPart} {
		next := 0
		for v := range ahead(count, aheadPart, func(i int) int {
			if i%7 == 0 {
				runtime.Gosched() // so that parts are not done in their order
			}
			return i * i
		}) {
			if v != next*next {
				t.Fatalf("of %d: value %d is %d", count, next, v)
			}
			next++
		}
		if next != count {
			t.Errorf("%d values of %d", next, count)
		}
	}
}

// Whoever takes no more leaves no goroutine behind.
func TestAheadStopped(t *testing.T) {
	before := runtime.NumGoroutine()
	for range 20 {
		for v := range ahead(1000*aheadPart, aheadPart, func(i int) int { return i }) {
			if v == 100 {
				break
			}
		}
	}
	for deadline := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > before; time.Sleep(time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("%d goroutines before, %d after", before, runtime.NumGoroutine())
		}
	}
}

// A panic reaches the consumer, after the values before it.
func TestAheadPanic(t *testing.T) {
	taken := 0
	defer func() {
		if fault := recover(); fault != "at 300" || taken > 300 {
			t.Errorf("fault %v after %d values", fault, taken)
		}
	}()
	for range ahead(1000, aheadPart, func(i int) int {
		if i == 300 {
			panic("at 300")
		}
		return i
	}) {
		taken++
	}
}
