package wall_test

import (
	"fmt"
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/laminate/wall/walltest"
)

// inverse is the yardstick: what one general 6×6 inverse of gonum's costs here
// and now.
func inverse(b *testing.B) time.Duration {
	m := mat.NewDense(6, 6, nil)
	for i := range 6 {
		for j := range 6 {
			m.Set(i, j, 1/float64(i+j+1))
		}
		m.Set(i, i, 7)
	}
	const rounds = 20_000
	start := time.Now()
	for range rounds {
		var inv mat.Dense
		if err := inv.Inverse(m); err != nil {
			b.Fatal(err)
		}
	}
	return time.Since(start) / rounds
}

// loaded is a wall of n rows with every kind of load.
func loaded(n int) *laminate.Schedule {
	s := walltest.Pipe()
	for i := len(s.Plies); i < n; i++ {
		id := []string{catalog.Mat15, catalog.Woven24}[i%2]
		s.Plies = append(s.Plies, walltest.Ply(id, 1))
	}
	s.Part.InsideDiameter = quantity.New(20, ft)
	s.Service.Vacuum, s.Service.TestPressure = quantity.New(1, psi), quantity.New(75, psi)
	s.Part.StiffenerSpacing = quantity.New(5, ft)
	return s
}

// BenchmarkEvaluate states a whole evaluation as a multiple of one 6×6 inverse;
// the goal for 40 rows is 10.
func BenchmarkEvaluate(b *testing.B) {
	lib := catalog.Library()
	for _, n := range []int{40, 500, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := loaded(n)
			a := laminate.Analyze(s, lib)
			before := inverse(b)
			b.ReportAllocs()
			for b.Loop() {
				if r := wall.Evaluate(s, lib, a, wall.Options{}); r.Problem != "" {
					b.Fatal(r.Problem)
				}
			}
			took := float64(b.Elapsed()) / float64(b.N)
			// Measured before and after, since a machine is seldom as busy twice.
			b.ReportMetric(took/(float64(before+inverse(b))/2), "inverses")
		})
	}
}

func BenchmarkNeed(b *testing.B) {
	lib := catalog.Library()
	s := walltest.Tank()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := repeat.Need(s, lib, repeat.MatAndWoven, wall.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
