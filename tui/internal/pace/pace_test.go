//go:build unix

package pace

import (
	"cmp"
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

// starts is how often a start is measured: the figure is the middle one.
const starts = 15

// begun is what it took until the program was ready, and what it then held.
type begun struct {
	ready, cpu          time.Duration
	resident, anonymous float64
	faults              float64
}

// begin runs the program until it is ready.
func begin(b *testing.B, silent bool, mark, program string, args ...string) begun {
	b.Helper()
	t := start(b, silent, mark, program, args...)
	defer t.stop()
	s, err := t.ready()
	if err != nil {
		b.Fatalf("%s never showed %q: %v", program, mark, err)
	}
	return s
}

// pressed is what keys cost, and what the program holds after them.
type pressed struct {
	median, p99              time.Duration
	cursor, edit, middleEdit time.Duration // processor time of one
	resident, anonymous      float64
}

const keystrokes = 120

// press runs the program once: cursor keys, then edits.
func press(b *testing.B, mark, program string, args ...string) pressed {
	b.Helper()
	t := start(b, false, mark, program, args...)
	defer t.stop()
	if _, err := t.ready(); err != nil {
		b.Fatalf("%s never showed %q: %v", program, mark, err)
	}
	time.Sleep(300 * time.Millisecond)
	var took []time.Duration
	run := func(pair [2]string) (mean, middle time.Duration) {
		var each []time.Duration
		before := t.cpu()
		last := before
		for i := range keystrokes {
			d, err := t.press(pair[i%2])
			if err != nil {
				b.Fatalf("%s: key %q: %v", program, pair[i%2], err)
			}
			took = append(took, d)
			// A random pause keeps the keys from falling in step with a frame clock.
			time.Sleep(time.Duration(15+rand.IntN(20)) * time.Millisecond)
			now := t.cpu()
			each = append(each, now-last)
			last = now
		}
		return (last - before) / keystrokes, middleOf(each, func(d time.Duration) time.Duration { return d })
	}
	var p pressed
	p.cursor, _ = run([2]string{"\x1b[B", "\x1b[A"})
	p.edit, p.middleEdit = run([2]string{"+", "-"})
	slices.Sort(took)
	p.median, p.p99 = took[len(took)/2], took[len(took)*99/100]
	p.resident, p.anonymous = t.memory("VmRSS:"), t.memory("RssAnon:")
	return p
}

func middleOf[T any, V cmp.Ordered](list []T, of func(T) V) V {
	values := make([]V, len(list))
	for i := range list {
		values[i] = of(list[i])
	}
	slices.Sort(values)
	return values[len(values)/2]
}

// BenchmarkAgainstBare states the terminal program's pace as ratios to the
// bare program's, both run in turn. Below 1 is better than bare.
func BenchmarkAgainstBare(b *testing.B) {
	bare, full := build(b, "frp/veilwright/tui/internal/pace/bare"), build(b, "frp/veilwright/cmd/veilwright")
	for _, rows := range []int{40, 2000} {
		path := schedule(b, rows)
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			for range b.N {
				var floor, got, quiet []begun
				for range starts {
					floor = append(floor, begin(b, false, "row 30", bare))
					got = append(got, begin(b, false, "Measured wall", full, path))
					quiet = append(quiet, begin(b, true, "Measured wall", full, path))
				}
				compare(b, got, floor)
				b.ReportMetric(ratio(middleOf(quiet, begun.untilReady), middleOf(floor, begun.untilReady)), "ready-unanswered/bare")
				keys, least := press(b, "Measured wall", full, path), press(b, "row 30", bare)
				b.ReportMetric(ratio(keys.median, least.median), "key-median/bare")
				b.ReportMetric(ratio(keys.p99, least.p99), "key-p99/bare")
				b.ReportMetric(ratio(keys.cursor, least.cursor), "cursor-cpu/bare")
				b.ReportMetric(ratio(keys.edit, least.edit), "edit-cpu/bare")
				b.ReportMetric(ratio(keys.middleEdit, least.middleEdit), "edit-cpu-median/bare")
				b.ReportMetric(keys.resident/least.resident, "memory/bare")
				b.ReportMetric(keys.anonymous/least.anonymous, "memory-anonymous/bare")
			}
		})
	}
}

// BenchmarkLinked is the floor under a start: the bare program in a binary that
// has the terminal program in it, of which no line runs but what Go packages do
// before main.
func BenchmarkLinked(b *testing.B) {
	bare, linked := build(b, "frp/veilwright/tui/internal/pace/bare"), build(b, "frp/veilwright/tui/internal/pace/linked")
	for range b.N {
		var floor, got []begun
		for range starts {
			floor = append(floor, begin(b, false, "row 30", bare))
			got = append(got, begin(b, false, "row 30", linked))
		}
		compare(b, got, floor)
	}
}

func (s begun) untilReady() time.Duration { return s.ready }

// compare states starts as ratios to those of the bare program.
func compare(b *testing.B, got, floor []begun) {
	b.ReportMetric(ratio(middleOf(got, begun.untilReady), middleOf(floor, begun.untilReady)), "ready/bare")
	cpu := func(s begun) time.Duration { return s.cpu }
	b.ReportMetric(ratio(middleOf(got, cpu), middleOf(floor, cpu)), "ready-cpu/bare")
	resident := func(s begun) float64 { return s.resident }
	b.ReportMetric(middleOf(got, resident)/middleOf(floor, resident), "ready-memory/bare")
	anonymous := func(s begun) float64 { return s.anonymous }
	b.ReportMetric(middleOf(got, anonymous)/middleOf(floor, anonymous), "ready-memory-anonymous/bare")
	faults := func(s begun) float64 { return s.faults }
	b.ReportMetric(middleOf(got, faults)/middleOf(floor, faults), "ready-faults/bare")
	b.ReportMetric(0, "ns/op")
}

func ratio(x, y time.Duration) float64 { return float64(x) / float64(y) }
