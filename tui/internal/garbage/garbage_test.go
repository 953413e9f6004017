package garbage

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

// percent is the present target, which only setting it tells.
func percent() int {
	mu.Lock()
	defer mu.Unlock()
	p := debug.SetGCPercent(-1)
	debug.SetGCPercent(p)
	return p
}

// collected collects until the target is what it is to be.
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
	defer debug.SetGCPercent(percent())
	Opening()
	if now := percent(); now != opening {
		t.Errorf("while it is opened the target is %d", now)
	}
	Begin()
	for range 3 {
		collected(t, small)
	}
	held := make([]byte, 8<<20)
	collected(t, usual)
	runtime.KeepAlive(held)
}

// A document so large that it has to be collected while it is read is collected
// as usual from there.
func TestOpening_endsWithTheFirstCollection(t *testing.T) {
	t.Setenv("GOGC", "")
	defer debug.SetGCPercent(percent())
	Opening()
	collected(t, usual)
}

func TestBegin_heedsTheEnvironment(t *testing.T) {
	t.Setenv("GOGC", "80")
	was := percent()
	Opening()
	Begin()
	if now := percent(); now != was {
		t.Errorf("the target is %d, was %d", now, was)
	}
}
