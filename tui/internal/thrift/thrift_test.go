package thrift

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

// percent is the present target, which only setting it tells.
func percent() int {
	p := debug.SetGCPercent(-1)
	debug.SetGCPercent(p)
	return p
}

// collected waits for what follows a collection.
func collected(t *testing.T, want int) {
	t.Helper()
	for range 200 {
		runtime.GC()
		if percent() == want {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Errorf("the target stays at %d, not %d", percent(), want)
}

func TestBegin_leavesAHeapThatGrowsAlone(t *testing.T) {
	t.Setenv("GOGC", "")
	was := percent()
	defer debug.SetGCPercent(was)
	Begin()
	collected(t, half)
	held := make([]byte, 8<<20)
	collected(t, whole)
	runtime.KeepAlive(held)
}

func TestBegin_heedsTheEnvironment(t *testing.T) {
	t.Setenv("GOGC", "80")
	was := percent()
	Begin()
	if now := percent(); now != was {
		t.Errorf("the target is %d, was %d", now, was)
	}
}
