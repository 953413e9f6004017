//go:build unix

package e2e

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// preparing is how much a package of this module may allocate, in bytes, before
// main begins: every command pays for it, whether it needs it or not. Expressions
// and tables that one page or one kind of document needs are made when it does.
const preparing = 16 << 10

// overgrown may only shrink.
var overgrown = map[string]int{"frp/veilwright/schedules": 40 << 10}

func TestStart_preparesLittle(t *testing.T) {
	cmd := exec.Command(program, "--version")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	line := regexp.MustCompile(`(?m)^init (\S+) .* clock, (\d+) bytes`)
	seen := 0
	for _, m := range line.FindAllStringSubmatch(string(out), -1) {
		bytes, err := strconv.Atoi(m[2])
		if err != nil {
			t.Fatal(err)
		}
		seen++
		most := max(preparing, overgrown[m[1]])
		if strings.HasPrefix(m[1], "frp/veilwright/") && bytes > most {
			t.Errorf("%s allocates %d bytes at every start; at most %d", m[1], bytes, most)
		}
	}
	if seen < 10 {
		t.Fatalf("only %d packages told what they prepare:\n%s", seen, out)
	}
}
