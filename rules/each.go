package rules

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// fewest is how many pieces are worth another goroutine.
const fewest = 8

// each calls do for 0 to n-1 in any order, on as many processors as there is work for.
// What do panics with, each panics with.
func each(n int, do func(int)) {
	workers := min(n/fewest, runtime.GOMAXPROCS(0))
	var taken atomic.Int64
	work := func() {
		for i := int(taken.Add(1)) - 1; i < n; i = int(taken.Add(1)) - 1 {
			do(i)
		}
	}
	if workers < 2 {
		work()
		return
	}
	var running sync.WaitGroup
	var failed atomic.Pointer[any]
	for range workers {
		running.Go(func() {
			defer func() {
				if what := recover(); what != nil {
					failed.Store(&what)
				}
			}()
			work()
		})
	}
	running.Wait()
	if what := failed.Load(); what != nil {
		panic(*what)
	}
}
