package result

import (
	"iter"
	"runtime"
)

const (
	aheadPart  = 64 // rows in a chunk
	aheadParts = 4  // finished chunks buffered per CPU
)

// part is a chunk of values, or the panic that replaced it.
type part[T any] struct {
	values []T
	fault  any
}

// ahead yields work(0) to work(count-1) in order. A worker per CPU computes chunks of
// that size, a few ahead of the consumer, so work must be safe for concurrent use.
func ahead[T any](count, size int, work func(int) T) iter.Seq[T] {
	return func(yield func(T) bool) {
		workers := runtime.GOMAXPROCS(0)
		type job struct {
			from int
			to   chan part[T]
		}
		jobs := make(chan job)
		order := make(chan chan part[T], aheadParts*workers)
		stop := make(chan struct{})
		defer close(stop)
		go func() {
			defer close(jobs)
			defer close(order)
			for from := 0; from < count; from += size {
				j := job{from, make(chan part[T], 1)}
				select {
				case order <- j.to:
				case <-stop:
					return
				}
				select {
				case jobs <- j:
				case <-stop:
					return
				}
			}
		}()
		for range workers {
			go func() {
				for j := range jobs {
					j.to <- workPart(j.from, min(j.from+size, count), work)
				}
			}()
		}
		for to := range order {
			p := <-to
			if p.fault != nil {
				panic(p.fault) // where it would have come without other processors
			}
			for _, v := range p.values {
				if !yield(v) {
					return
				}
			}
		}
	}
}

func workPart[T any](from, to int, work func(int) T) (p part[T]) {
	defer func() { p.fault = recover() }()
	p.values = make([]T, 0, to-from)
	for i := from; i < to; i++ {
		p.values = append(p.values, work(i))
	}
	return p
}
