//go:build unix

package terminal

import (
	"os"
	"strconv"
	"strings"
)

// parentOf is the parent of a process, 0 where that cannot be told. It is the
// second field behind the command's closing parenthesis in proc_pid_stat(5).
func parentOf(pid int) int {
	stat, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/stat")
	if err != nil {
		return 0
	}
	fields := strings.Fields(string(stat[strings.LastIndexByte(string(stat), ')')+1:]))
	if len(fields) < 2 {
		return 0
	}
	parent, err := strconv.Atoi(fields[1])
	if err != nil {
		return 0
	}
	return parent
}
