// Package inorder does many pieces of work on all processors and takes what they
// come to in their order, holding only a few of them.
package inorder

import (
	"runtime"
	"runtime/debug"
	"sync"
)

// ahead is how many results may wait for each processor: enough for one slow
// piece not to stop the others, few enough to hold.
const ahead = 8

// garbage is how much may be made before it is collected, in percent of what is held.
const garbage = 800

// result is what a piece came to, or what it panicked with.
type result[T any] struct {
	value  T
	failed any
}

// Do calls work for 0 to n-1 on all processors, and take with each result in that
// order on the caller's goroutine. What a piece leaves behind is garbage soon: until
// Do returns it is collected less often, which costs some memory, however many
// pieces there are, and saves a fifth of the time. No goroutine is left when it returns. What work
// panics with, Do panics with.
func Do[T any](n int, work func(int) T, take func(T)) {
	defer debug.SetGCPercent(debug.SetGCPercent(garbage))
	workers := min(n, runtime.GOMAXPROCS(0))
	type piece struct {
		i    int
		done chan result[T]
	}
	waiting := make(chan chan result[T], workers*ahead) // in order
	todo := make(chan piece)
	var running sync.WaitGroup
	stop := make(chan struct{})
	defer running.Wait()
	defer close(stop)
	running.Go(func() {
		defer close(waiting)
		defer close(todo)
		for i := range n {
			done := make(chan result[T], 1)
			select {
			case waiting <- done:
			case <-stop:
				return
			}
			todo <- piece{i, done}
		}
	})
	// As many goroutines as processors, not one for each piece: each would have to
	// grow its stack again.
	for range workers {
		running.Go(func() {
			for p := range todo {
				p.done <- guarded(p.i, work)
			}
		})
	}
	for done := range waiting {
		r := <-done
		if r.failed != nil {
			panic(r.failed)
		}
		take(r.value)
	}
}

func guarded[T any](i int, work func(int) T) (r result[T]) {
	defer func() { r.failed = recover() }()
	r.value = work(i)
	return r
}
