package inorder

import (
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"
)

func TestDo_takesInOrderAndHoldsFew(t *testing.T) {
	for _, n := range []int{0, 1, 2, 7, 1_000} {
		var begun atomic.Int64
		var got []int
		Do(n, func(i int) int {
			begun.Add(1)
			time.Sleep(time.Duration(rand.IntN(50)) * time.Microsecond)
			return i
		}, func(i int) {
			if held := int(begun.Load()) - len(got); held > (ahead+2)*runtime.GOMAXPROCS(0) {
				t.Fatalf("%d results are held", held)
			}
			got = append(got, i)
		})
		if len(got) != n || !slices.IsSorted(got) {
			t.Errorf("%d pieces came as %v", n, got)
		}
	}
}

func TestDo_carriesAPanicAndLeavesNothingRunning(t *testing.T) {
	before := runtime.NumGoroutine()
	taken := 0
	func() {
		defer func() {
			if got := recover(); got != "piece 5" {
				t.Errorf("recovered %v", got)
			}
		}()
		Do(10_000, func(i int) int {
			if i == 5 {
				panic("piece 5")
			}
			return i
		}, func(int) { taken++ })
	}()
	if taken != 5 {
		t.Errorf("%d were taken before it", taken)
	}
	for range 100 { // a goroutine ends a moment after it says so
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), before)
}
