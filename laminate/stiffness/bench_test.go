package stiffness_test

import (
	"errors"
	"fmt"
	"testing"

	"gonum.org/v1/gonum/mat"

	"frp/veilwright/laminate/stiffness"
)

var sizes = []int{20, 500, 10_000}

func wound(n int) []stiffness.Layer {
	angles := make([]float64, n)
	for i := range angles {
		angles[i] = []float64{0, 90, 55, -55}[i%4]
	}
	return stack(eGlass, 1e-3/float64(1+n/100), angles...)
}

// Thousands of plies cost the heap as often as one does.
func TestAllocations_doNotGrowWithPlies(t *testing.T) {
	if n := testing.AllocsPerRun(20, func() { mustNew(t, wound(1)[:1]) }); n > 40 {
		t.Errorf("one ply: %v allocations", n)
	}
	of := func(n int) float64 {
		layers := wound(n)
		return testing.AllocsPerRun(20, func() { _, _ = stiffness.New(layers) })
	}
	// A collection in between empties gonum's pools, which costs a few more.
	if few, many := of(2), of(5000); many > few+10 {
		t.Errorf("New: %v allocations for 2 plies, %v for 5000", few, many)
	}
	l := mustNew(t, wound(5000))
	out := make([]stiffness.PlyState, l.Len())
	limit := stiffness.Allowables{Strain: stiffness.Limits{CrossTension: 0.002}}
	if n := testing.AllocsPerRun(20, func() {
		d, err := l.Shell([3]float64{1e4, 2e4, 0})
		if err != nil {
			t.Fatal(err)
		}
		out = l.States(d, out)
		if _, err := l.FirstPly(d, func(int) stiffness.Allowables { return limit }); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("strains of 5000 plies into the caller's slice: %v allocations", n)
	}
}

func BenchmarkNew(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			layers := wound(n)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := stiffness.New(layers); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/ply")
		})
	}
}

func BenchmarkStates(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			l := mustNew(b, wound(n))
			out := make([]stiffness.PlyState, n)
			b.ReportAllocs()
			for b.Loop() {
				d, err := l.Shell([3]float64{1e4, 2e4, 0})
				if err != nil {
					b.Fatal(err)
				}
				out = l.States(d, out)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/ply")
		})
	}
}

func BenchmarkFirstPly(b *testing.B) {
	limit := stiffness.Allowables{
		Strain:   stiffness.Limits{FiberTension: 0.02, FiberCompression: 0.01, CrossTension: 0.003, CrossCompression: 0.012, Shear: 0.015},
		Strength: stiffness.Limits{FiberTension: 800e6, FiberCompression: 500e6, CrossTension: 30e6, CrossCompression: 120e6, Shear: 50e6},
	}
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			l := mustNew(b, wound(n))
			d, err := l.Shell([3]float64{1e4, 2e4, 0})
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := l.FirstPly(d, func(int) stiffness.Allowables { return limit }); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/ply")
		})
	}
}

// BenchmarkInverse6 is the yardstick: one general 6×6 inverse of gonum's.
func BenchmarkInverse6(b *testing.B) {
	m := mat.NewDense(6, 6, nil)
	plate := mustNew(b, wound(20)).Plate()
	for i := range 6 {
		m.SetRow(i, plate[i][:])
	}
	b.ReportAllocs()
	for b.Loop() {
		var inv mat.Dense
		if err := inv.Inverse(m); err != nil {
			if near := mat.Condition(0); !errors.As(err, &near) {
				b.Fatal(err)
			}
		}
	}
}
