package job

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/entry"
	"frp/veilwright/tui/internal/keys"
)

// wide is the text of a job of n parts of 99 plies, a joint and a nozzle to each.
func wide(n int) []byte {
	var b strings.Builder
	put := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	put("document = \"job\"\nformat = 1\ntitle = \"Wide\"\n[service]\nfluid = \"brine\"\ncontains = [\"brine\"]\ntemperature = \"90 degF\"\nph = [6, 8]\npressure = \"0 psi\"\nvacuum = \"0 psi\"\nspecific_gravity = 1.1")
	put("[vessel]\nliquid_height = \"%d in\"\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"", n*3)
	for i := range n {
		put("[[laminate]]\nid = \"w%d\"\n[[laminate.ply]]\nmaterial = \"veil-c-15\"\nresin = \"r\"\n[[laminate.ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\ncount = 2\ngel_after = true", i)
		for range 12 {
			put("[[laminate.ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\ncount = 4\n[[laminate.ply]]\nmaterial = \"woven-24\"\nresin = \"r\"\ncount = 4\ngel_after = true")
		}
	}
	for i := range n {
		put("[[part]]\nid = \"p%d\"\nform = \"shell-course\"\nlaminate = \"w%d\"\nprocess = \"contact\"\ninside_diameter = \"8 ft\"\nlength = \"6 in\"\nends = \"open\"", i, i)
		put("[[nozzle]]\nid = \"N%d\"\non = \"p%d\"\nheight = \"3 in\"\nsize = \"2 in\"\nbearing = %d", i, i, i%360)
		if i > 0 {
			put("[[joint]]\nid = \"J%d\"\nbetween = [\"p%d\", \"p%d\"]\nwidth = \"8 in\"\nfirst_width = \"2 in\"\ngap = \"1/8 in\"", i, i-1, i)
		}
	}
	return []byte(b.String())
}

// BenchmarkKeys presses keys on a job of 200 parts, drawing after each, and in turn
// the same on one of 10: ratios tell how a key grows with the job.
func BenchmarkKeys(b *testing.B) {
	large, small := open(b, wide(200), 120, 36), open(b, wide(10), 120, 36)
	frame := func(p *Job, names ...string) time.Duration {
		at := time.Now()
		press(p, names...)
		p.Settle()
		p.Lines()
		return time.Since(at)
	}
	// The length of the lowest course changes the head on all; a nozzle changes no wall.
	edit := func(p *Job, kind laminate.RefKind, key string, n int) time.Duration {
		at := time.Now()
		if err := p.Desk.ApplyJob(entry.State(laminate.Ref{Kind: kind}, key, fmt.Sprintf("%d in", 4+n%2))); err != nil {
			b.Fatal(err)
		}
		p.Settle()
		p.Lines()
		return time.Since(at)
	}
	var cursor, cursorSmall, form, formSmall, edits, editsSmall, nozzles, nozzlesSmall time.Duration
	for n := 0; b.Loop(); n++ {
		cursor += frame(large, keys.Down)
		cursorSmall += frame(small, keys.Down)
		form += frame(large, "e") + frame(large, keys.Esc)
		formSmall += frame(small, "e") + frame(small, keys.Esc)
		edits += edit(large, laminate.RefJobPart, "length", n)
		editsSmall += edit(small, laminate.RefJobPart, "length", n)
		nozzles += edit(large, laminate.RefNozzle, "pad_diameter", n)
		nozzlesSmall += edit(small, laminate.RefNozzle, "pad_diameter", n)
	}
	per := func(d time.Duration) float64 { return d.Seconds() * 1000 / float64(b.N) }
	b.ReportMetric(per(cursor), "cursor-ms")
	b.ReportMetric(float64(cursor)/float64(cursorSmall), "cursor-times-10-parts")
	b.ReportMetric(per(form), "form-ms")
	b.ReportMetric(float64(form)/float64(formSmall), "form-times-10-parts")
	b.ReportMetric(per(edits), "edit-ms")
	b.ReportMetric(float64(edits)/float64(editsSmall), "edit-times-10-parts")
	b.ReportMetric(per(nozzles), "nozzle-edit-ms")
	b.ReportMetric(float64(nozzles)/float64(nozzlesSmall), "nozzle-edit-times-10-parts")
}
