//go:build unix

package pace

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func build(b *testing.B, pkg string) string {
	b.Helper()
	out := filepath.Join(b.TempDir(), filepath.Base(pkg))
	if msg, err := exec.Command("go", "build", "-o", out, pkg).CombinedOutput(); err != nil {
		b.Fatalf("building %s: %v\n%s", pkg, err, msg)
	}
	return out
}

// schedule writes a schedule of n alternating rows, one of which breaks a rule.
func schedule(b *testing.B, n int) string {
	b.Helper()
	var s strings.Builder
	s.WriteString(`document = "schedule"
format = 1
title = "Measured wall"
[part]
form = "pipe"
process = "contact"
inside_diameter = "24 in"
[service]
temperature = "150 degF"
ph = [3.5, 6.0]
contains = ["fluorides"]
pressure = "50 psi"
vacuum = "0 psi"
[[resin]]
id = "wall"
family = "vinyl-ester"
[[ply]]
material = "veil-c-15"
resin = "wall"
[[ply]]
material = "mat-1.5"
resin = "wall"
count = 2
gel_after = true
`)
	for i := range n - 2 {
		material := "mat-1.5"
		if i%2 == 1 {
			material = "woven-24"
		}
		fmt.Fprintf(&s, "[[ply]]\nmaterial = %q\nresin = \"wall\"\n", material)
		if material == "woven-24" {
			s.WriteString("angle = 0\n")
		}
	}
	path := filepath.Join(b.TempDir(), "measured.toml")
	if err := os.WriteFile(path, []byte(s.String()), 0o600); err != nil {
		b.Fatal(err)
	}
	return path
}

type figures struct {
	ready, median, p99, cursorCPU, editCPU time.Duration
	resident                               float64
}

const keystrokes = 120

// measure runs the program once: ready, cursor keys, then edits.
func measure(b *testing.B, silent bool, mark, program string, args ...string) figures {
	b.Helper()
	t := start(b, silent, program, args...)
	defer t.stop()
	var f figures
	var err error
	if f.ready, err = t.until(mark); err != nil {
		b.Fatalf("%s never showed %q: %v", program, mark, err)
	}
	time.Sleep(300 * time.Millisecond)
	var took []time.Duration
	run := func(pair [2]string) time.Duration {
		before := t.cpu()
		for i := range keystrokes {
			// A random pause keeps the keys from falling in step with a frame clock.
			time.Sleep(time.Duration(15+rand.IntN(20)) * time.Millisecond)
			d, err := t.press(pair[i%2])
			if err != nil {
				b.Fatalf("%s: key %q: %v", program, pair[i%2], err)
			}
			took = append(took, d)
		}
		time.Sleep(50 * time.Millisecond)
		return (t.cpu() - before) / keystrokes
	}
	f.cursorCPU = run([2]string{"\x1b[B", "\x1b[A"})
	f.editCPU = run([2]string{"+", "-"})
	slices.Sort(took)
	f.median, f.p99 = took[len(took)/2], took[len(took)*99/100]
	f.resident = t.resident()
	return f
}

// BenchmarkAgainstBare states the terminal program's pace as ratios to the
// bare program's, both run in turn. Below 1 is better than bare.
func BenchmarkAgainstBare(b *testing.B) {
	bare, full := build(b, "frp/veilwright/tui/internal/pace/bare"), build(b, "frp/veilwright/cmd/veilwright")
	for _, rows := range []int{40, 2000} {
		path := schedule(b, rows)
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			for range b.N {
				floor := measure(b, false, "row 30", bare)
				got := measure(b, false, "Measured wall", full, path)
				quiet := measure(b, true, "Measured wall", full, path)
				ratio := func(x, y time.Duration) float64 { return float64(x) / float64(y) }
				b.ReportMetric(ratio(got.ready, floor.ready), "ready/bare")
				b.ReportMetric(ratio(quiet.ready, floor.ready), "ready-unanswered/bare")
				b.ReportMetric(ratio(got.median, floor.median), "key-median/bare")
				b.ReportMetric(ratio(got.p99, floor.p99), "key-p99/bare")
				b.ReportMetric(ratio(got.cursorCPU, floor.cursorCPU), "cursor-cpu/bare")
				b.ReportMetric(ratio(got.editCPU, floor.editCPU), "edit-cpu/bare")
				b.ReportMetric(got.resident/floor.resident, "memory/bare")
				b.ReportMetric(0, "ns/op")
			}
		})
	}
}
