//go:build unix

package cli

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"frp/veilwright/rules/ruletest"
	"frp/veilwright/schedules/shop"
)

// generated is the text of schedule i, each different: 5 to 24 ply tables, part and
// service stated.
func generated(r *rand.Rand, i int) string {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var b strings.Builder
	fmt.Fprintf(&b, "document = \"schedule\"\nformat   = 1\ntitle    = \"Header %d\"\nrevision = %d\nunits    = %q\n\n", i, r.IntN(9), pick("us", "si"))
	fmt.Fprintf(&b, "[part]\nform            = %q\nprocess         = \"contact\"\ninside_diameter = \"%d in\"\nflanged         = %s\nends            = \"closed\"\n\n",
		pick("pipe", "duct"), 4+r.IntN(90), pick("true", "false"))
	fmt.Fprintf(&b, "[service]\nfluid            = \"liquor %d\"   # as the plant calls it\nconcentration    = 0.%02d\ntemperature      = \"%d degF\"\nph               = [%d, %d]\ncontact          = \"immersed\"\ncontains         = [%q]\npressure         = \"%d psi\"\nvacuum           = \"0 psi\"\nspecific_gravity = 1.%d\n\n",
		i%7, r.IntN(100), 60+r.IntN(120), r.IntN(6), 7+r.IntN(7), pick("fluorides", "brine", "strong-acid", "hypochlorite"), r.IntN(100), r.IntN(4))
	fmt.Fprintf(&b, "[[resin]]\nid     = \"liner\"\nfamily = %q\n\n[[resin]]\nid     = \"wall\"\nfamily = \"vinyl-ester\"\n\n",
		pick("vinyl-ester", "novolac-vinyl-ester", "isophthalic-polyester"))
	fmt.Fprintf(&b, "# barrier\n[[ply]]\nmaterial = %q\nresin    = \"liner\"\n\n[[ply]]\nmaterial  = \"mat-1.5\"\nresin     = \"liner\"\ncount     = 2\ngel_after = true\n\n",
		pick(catalog.VeilC10, catalog.VeilPolyester15, catalog.VeilCarbon11))
	for range 3 + r.IntN(20) {
		fmt.Fprintf(&b, "[[ply]]\nmaterial = %q\nresin    = \"wall\"\ncount    = %d\n\n", pick(catalog.Mat15, catalog.Woven24, catalog.Chop15), 1+r.IntN(3))
	}
	return b.String()
}

// schedules10000 writes ten thousand generated schedules, a thousand a folder.
func schedules10000(tb testing.TB, top string) []string {
	tb.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	var paths []string
	for i := range 10_000 {
		dir := filepath.Join(top, fmt.Sprintf("%02d", i/1000))
		if err := os.MkdirAll(dir, 0o755); err != nil {
			tb.Fatal(err)
		}
		path := filepath.Join(dir, fmt.Sprintf("%05d.toml", i))
		if err := os.WriteFile(path, []byte(generated(r, i)), 0o644); err != nil {
			tb.Fatal(err)
		}
		paths = append(paths, path)
	}
	return paths
}

// What is kept of the fixes of such schedules is what judging each as a whole keeps.
func TestGenerated_keepsTheFixesOfWholeJudgments(t *testing.T) {
	r, s, tried := rand.New(rand.NewPCG(1, 2)), shop.New(shop.Options{NoBook: true}), 0
	for i := range 300 {
		o := s.Open("a.toml", []byte(generated(r, i)), "")
		if !o.Usable() {
			t.Fatal(o.Why())
		}
		n, err := ruletest.Trials(o.Schedule, o.Library, rules.Options{Units: o.Schedule.Units})
		if err != nil {
			t.Fatalf("%v\n%s", err, o.Text)
		}
		tried += n
	}
	if tried < 300 {
		t.Errorf("only %d fixes were tried", tried)
	}
}

// cpu is the processor time of this process so far, system calls included.
func cpu(tb testing.TB) time.Duration {
	tb.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		tb.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkCheck10000 holds check over ten thousand schedules against reading
// the same files and decoding them into maps with the TOML library, in turn
// and in the same process. The figure that counts is times-bare: processor
// time of the one over the other; times-bare-clock is what somebody waits.
func BenchmarkCheck10000(b *testing.B) {
	top := b.TempDir()
	paths := schedules10000(b, top)
	b.Run("text", func(b *testing.B) { againstBare(b, paths, "check", "--no-book", top) })
	b.Run("json", func(b *testing.B) { againstBare(b, paths, "check", "--no-book", "--json", top) })
}

func againstBare(b *testing.B, paths []string, args ...string) {
	var bare, check, bareClock, checkClock time.Duration
	for b.Loop() {
		before, began := cpu(b), time.Now()
		for _, p := range paths {
			text, err := os.ReadFile(p)
			if err != nil {
				b.Fatal(err)
			}
			var into map[string]any
			if err := toml.Unmarshal(text, &into); err != nil {
				b.Fatal(err)
			}
		}
		between, turned := cpu(b), time.Now()
		code := Run(args, Process{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Getenv: os.Getenv})
		if code == Unusable {
			b.Fatal("a generated schedule cannot be used")
		}
		check += cpu(b) - between
		bare += between - before
		checkClock += time.Since(turned)
		bareClock += turned.Sub(began)
	}
	b.ReportMetric(check.Seconds()*1e6/float64(b.N*len(paths)), "µs-check/schedule")
	b.ReportMetric(bare.Seconds()*1e6/float64(b.N*len(paths)), "µs-bare/schedule")
	b.ReportMetric(check.Seconds()/bare.Seconds(), "times-bare")
	b.ReportMetric(checkClock.Seconds()/bareClock.Seconds(), "times-bare-clock")
	b.ReportMetric(0, "ns/op")
}
