//go:build unix

package terminal

import (
	"os"
	"testing"
)

func TestParentOf_readsTheKernelsTable(t *testing.T) {
	if _, err := os.Stat("/proc/self/stat"); err != nil {
		if got := parentOf(os.Getpid()); got != 0 {
			t.Errorf("without /proc the parent is %d, want 0", got)
		}
		return
	}
	if got := parentOf(os.Getpid()); got != os.Getppid() {
		t.Errorf("the parent is %d, want %d", got, os.Getppid())
	}
	if got := parentOf(-1); got != 0 {
		t.Errorf("the parent of no process is %d", got)
	}
}
