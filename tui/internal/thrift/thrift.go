// Package thrift keeps the garbage of a small document small. The runtime lets
// four megabytes gather before it collects for the first time, which is several
// times what a document of some hundred rows lives in; what that leaves is most
// of the memory that is no part of the program's own file.
package thrift

import (
	"os"
	"runtime"
	"runtime/debug"
)

// half of the runtime's own target: of its least heap and of what grows beyond it.
const (
	half  = 50
	whole = 100
	least = 2 << 20 // bytes, the least target of the heap at half
)

// Begin collects at half the usual garbage for as long as that is the least
// there is. A heap that outgrows it is collected as usual: an edit of thousands
// of rows would pay for every megabyte saved. Who states GOGC is heeded.
func Begin() {
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(half)
	watch()
}

// watch looks at the heap after the next collection, which finds the token gone.
func watch() {
	token := new([64]byte)
	runtime.AddCleanup(token, func(struct{}) {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		if m.NextGC > least {
			debug.SetGCPercent(whole)
			return
		}
		watch()
	}, struct{}{})
}
