package inspection

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/published"
)

// checks are the check values of testdata/inspection, each with its source.
type checks struct {
	DewPoint struct {
		Cases []struct {
			Air      float64 `json:"air_c"`
			Humidity float64 `json:"humidity"`
			Want     float64 `json:"want_c"`
			Within   float64 `json:"within"`
		} `json:"cases"`
	} `json:"dew_point"`
	Ignition struct {
		Cases []struct {
			What      string  `json:"what"`
			Before    float64 `json:"before_g"`
			After     float64 `json:"after_g"`
			Filler    float64 `json:"filler"`
			Organic   float64 `json:"organic"`
			WantLoss  float64 `json:"want_loss"`
			WantGlass float64 `json:"want_glass"`
			Within    float64 `json:"within"`
		} `json:"cases"`
	} `json:"ignition_loss"`
	Barcol struct {
		Cases []struct {
			Readings []float64 `json:"readings"`
			Want     float64   `json:"want"`
			Within   float64   `json:"within"`
		} `json:"cases"`
	} `json:"barcol"`
}

func load(t *testing.T) checks {
	t.Helper()
	b, err := os.ReadFile("../../testdata/inspection/readings.json")
	if err != nil {
		t.Fatal(err)
	}
	var c checks
	if err := json.Unmarshal(b, &c); err != nil {
		t.Fatal(err)
	}
	if len(c.DewPoint.Cases) == 0 || len(c.Ignition.Cases) == 0 || len(c.Barcol.Cases) == 0 {
		t.Fatal("a kind of check value is missing")
	}
	return c
}

func TestDewPoint_published(t *testing.T) {
	for _, c := range load(t).DewPoint.Cases {
		got, err := DewPoint(c.Air, c.Humidity)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, "dew point", got, c.Want, c.Within)
	}
	for _, bad := range [][2]float64{{20, 0}, {20, 1.01}, {20, math.NaN()}, {math.NaN(), 0.5}, {90, 0.5}} {
		if _, err := DewPoint(bad[0], bad[1]); err == nil {
			t.Errorf("DewPoint(%v) must refuse", bad)
		}
	}
}

func TestGlassFromResidue_byHand(t *testing.T) {
	for _, c := range load(t).Ignition.Cases {
		loss, err := Loss(c.Before, c.After)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, c.What+": loss", loss, c.WantLoss, c.Within)
		g, err := GlassFromResidue(1-loss, Burned{Filler: c.Filler, Organic: c.Organic})
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, c.What+": glass", g, c.WantGlass, c.Within)
	}
}

func TestLoss_refuses(t *testing.T) {
	for _, bad := range [][2]float64{{0, 0}, {5, 6}, {-1, 0}, {5, -1}, {math.NaN(), 1}, {math.Inf(1), 1}} {
		if _, err := Loss(bad[0], bad[1]); err == nil {
			t.Errorf("Loss(%v) must refuse", bad)
		}
	}
}

func TestGlassFromResidue_isInverseOfBurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		glass := rapid.Float64Range(0, 0.6).Draw(t, "glass")
		b := Burned{Filler: rapid.Float64Range(0, 0.6).Draw(t, "filler"), Organic: rapid.Float64Range(0, 0.3).Draw(t, "organic")}
		left := glass + b.Filler*(1-glass-b.Organic)
		got, err := GlassFromResidue(left, b)
		if err != nil || math.Abs(got-glass) > 1e-9 {
			t.Fatalf("burned %.4f with %+v, read back %.4f (%v)", glass, b, got, err)
		}
	})
}

func TestGlassFromResidue_refusesLessThanTheFiller(t *testing.T) {
	if _, err := GlassFromResidue(0.2, Burned{Filler: 0.35}); err == nil {
		t.Error("a residue below the filler's must be refused")
	}
}

func TestBarcolAverage_dropsTwoAtEachEnd(t *testing.T) {
	var readings, before []float64
	for _, c := range load(t).Barcol.Cases {
		readings, before = c.Readings, slices.Clone(c.Readings)
		got, err := BarcolAverage(readings)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, "average", got, c.Want, c.Within)
	}
	if !slices.Equal(before, readings) {
		t.Error("the readings were put in another order")
	}
	if _, err := BarcolAverage(readings[:9]); !errors.Is(err, ErrTooFew) {
		t.Errorf("nine readings: %v", err)
	}
}

// Against gonum's mean and sample standard deviation.
func TestSummarize_agreesWithGonum(t *testing.T) {
	list := []float64{2.91, 3.05, 2.88, 3.11, 2.97}
	s, err := Summarize(list)
	if err != nil {
		t.Fatal(err)
	}
	mean, dev := stat.MeanStdDev(list, nil)
	published.Near(t, "mean", s.Mean, mean, 1e-12)
	published.Near(t, "deviation", s.Deviation, dev, 1e-12)
	if s.Lowest != 2.88 || s.Highest != 3.11 {
		t.Errorf("range %v to %v", s.Lowest, s.Highest)
	}
	if _, err := Summarize(nil); !errors.Is(err, ErrTooFew) {
		t.Errorf("no readings: %v", err)
	}
}

// The closed form against a seeded simulation of single plies.
func TestPredict_agreesWithMonteCarlo(t *testing.T) {
	const rhoF, rhoB = 2620.0, 1150.0
	ply := func(zone laminate.Zone, first, last int, w, g float64) laminate.RowFigures {
		return laminate.RowFigures{Zone: zone, First: first, Last: last, Thickness: w/rhoF + w*(1-g)/g/rhoB, Mass: w / g,
			FiberMass: w, GlassMass: w, FiberVolume: w / rhoF, MassKnown: true}
	}
	a := &laminate.Analysis{Rows: []laminate.RowFigures{
		ply(laminate.InnerSurface, 1, 1, 0.045, 0.10),
		ply(laminate.InteriorLayer, 2, 3, 0.4577, 0.27),
		ply(laminate.StructuralLayer, 4, 4, 0.8137, 0.55),
	}}
	barrier := func(z laminate.Zone) bool { return z.InBarrier() }
	tol := Tolerance{ArealMass: 0.08, ResinContent: 0.02}
	got, err := Predict(a, barrier, tol)
	if err != nil {
		t.Fatal(err)
	}
	const runs = 200_000
	rng := rand.New(rand.NewPCG(7, 11))
	thick, glass := make([]float64, runs), make([]float64, runs)
	for i := range runs {
		var sumT, sumW, sumM float64
		for _, r := range a.Rows[:2] {
			for range r.Last - r.First + 1 {
				w := r.FiberMass * (1 + rng.NormFloat64()*tol.ArealMass/ninetyFive)
				g := r.FiberMass/r.Mass + rng.NormFloat64()*tol.ResinContent/ninetyFive
				sumT += w/rhoF + w*(1-g)/g/rhoB
				sumW += w
				sumM += w / g
			}
		}
		thick[i], glass[i] = sumT, sumW/sumM
	}
	meanT, devT := stat.MeanStdDev(thick, nil)
	meanG, devG := stat.MeanStdDev(glass, nil)
	// The closed form is of first order: it may differ by the curvature it leaves out.
	published.Near(t, "mean thickness", got.Thickness.Mean/meanT, 1, 0.005)
	published.Near(t, "thickness range", got.Thickness.Half/(ninetyFive*devT), 1, 0.05)
	published.Near(t, "mean glass", got.GlassContent.Mean/meanG, 1, 0.005)
	published.Near(t, "glass range", got.GlassContent.Half/(ninetyFive*devG), 1, 0.05)
}

func TestPredict_refuses(t *testing.T) {
	unknown := &laminate.Analysis{Rows: []laminate.RowFigures{{Zone: laminate.StructuralLayer, First: 1, Last: 1}}}
	all := func(laminate.Zone) bool { return true }
	if _, err := Predict(unknown, all, Tolerance{}); err == nil {
		t.Error("a ply without known mass must be refused")
	}
	if _, err := Predict(&laminate.Analysis{}, all, Tolerance{ArealMass: -1}); err == nil {
		t.Error("a negative tolerance must be refused")
	}
}
