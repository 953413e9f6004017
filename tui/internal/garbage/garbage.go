// Package garbage sets when the runtime collects garbage. By itself it collects
// at four megabytes first, and then whenever the heap has doubled: in the middle
// of a start that reads thousands of rows, of which nearly all is kept, and at
// several times what a document of some hundred rows lives in, which is most of
// the memory that is no part of the program's own file.
package garbage

import (
	"os"
	"runtime"
	"runtime/debug"
	"sync"
)

// Targets in percent, as GOGC has them: the first collection at 16 MB, 2 MB or
// 4 MB, and by so much of growth from there.
const (
	opening = 400
	small   = 50
	usual   = 100
)

// outgrown is the target of the heap, in bytes, beyond which a document is not
// small: an edit of thousands of rows would pay for every megabyte saved.
const outgrown = 2 << 20

var (
	mu       sync.Mutex // held while a target is chosen
	begun    bool
	watching bool
)

// Opening is for the moment before a document is read. Nothing is collected until
// Begin, unless the document is so large that it has to be.
func Opening() { choose(opening, false) }

// Begin is for the moment when all stands: from here on little garbage gathers,
// until the heap outgrows it.
func Begin() { choose(small, true) }

// choose sets the target, but for whoever states one.
func choose(percent int, settled bool) {
	if os.Getenv("GOGC") != "" {
		return
	}
	mu.Lock()
	defer mu.Unlock()
	begun = settled
	debug.SetGCPercent(percent)
	watch()
}

// watch has the heap looked at after the next collection, which finds the token
// gone.
func watch() {
	if watching {
		return
	}
	watching = true
	runtime.AddCleanup(new([64]byte), func(struct{}) {
		mu.Lock()
		defer mu.Unlock()
		watching = false
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		if !begun || m.NextGC > outgrown {
			debug.SetGCPercent(usual)
			return
		}
		watch()
	}, struct{}{})
}
