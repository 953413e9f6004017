package joining_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/published"
)

type bond struct {
	DiameterIn float64 `json:"diameter_in"`
	PSI        float64 `json:"pressure_psi"`
	LbIn       float64 `json:"load_lb_in"`
	ShearPSI   float64 `json:"shear_psi"`
	LengthIn   float64 `json:"length_in"`
	DiameterMM float64 `json:"diameter_mm"`
	MPa        float64 `json:"pressure_mpa"`
	NMM        float64 `json:"load_n_mm"`
	ShearMPa   float64 `json:"shear_n_mm2"`
	LengthMM   float64 `json:"length_mm"`
}

// The equations are linear: any units that agree will do.
func TestBonds_agreeWithTheCheckValues(t *testing.T) {
	var f struct {
		published.Head
		US     []bond                                      `json:"bonds_us"`
		SI     []bond                                      `json:"bonds_si"`
		Widths []struct{ T, Sixteen, Taper, Kept float64 } `json:"widths_in"`
		Plies  []struct {
			First, Width float64
			N            int
			List         []float64
		} `json:"plies_in"`
		Stagger []struct{ T, Stagger float64 } `json:"stagger_in"`
		Peaks   struct {
			Modulus  float64 `json:"modulus_gpa"`
			Wall     float64 `json:"wall_mm"`
			Layer    float64 `json:"layer_mm"`
			LayerGPa float64 `json:"layer_gpa"`
			Cases    []struct {
				Length float64 `json:"length_mm"`
				Ratio  float64 `json:"ratio"`
			} `json:"cases"`
		} `json:"peaks"`
		Pads []struct {
			Needed, Has, Opening, Pad, Thickness float64
			Note                                 string
		} `json:"pads_in"`
		Shear []struct {
			Load    float64 `json:"load_lb_in"`
			Opening float64 `json:"opening"`
			Pad     float64 `json:"pad"`
			Shear   float64 `json:"shear"`
		} `json:"pad_shear_psi"`
		Blow     []struct{ Pressure, Diameter, Bonded, Shear float64 } `json:"blow_out_psi"`
		Diameter []struct{ Opening, Pad float64 }                      `json:"pad_diameter_in"`
	}
	published.Load(t, "joining/bonds.json", &f)
	for _, c := range f.US {
		n := joining.AxialLoad(c.PSI, c.DiameterIn)
		published.Near(t, "load", n, c.LbIn, 1e-9)
		published.Near(t, "bond", joining.BondLength(n, c.ShearPSI), c.LengthIn, 1e-9)
	}
	for _, c := range f.SI {
		n := joining.AxialLoad(c.MPa, c.DiameterMM)
		published.Near(t, "load", n, c.NMM, 1e-9)
		published.Near(t, "bond", joining.BondLength(n, c.ShearMPa), c.LengthMM, 0.05)
	}
	for _, c := range f.Widths {
		published.Near(t, "16 t", joining.StrapWidth(c.T, 0, 0, -1e9), c.Sixteen, 1e-9)
		published.Near(t, "taper", joining.Taper(16*c.T, 2, c.T), c.Taper, 0.005)
		published.Near(t, "width that keeps it", 2+2*joining.TaperRatio*c.T, c.Kept, 1e-9)
	}
	published.Near(t, "a long bond", joining.StrapWidth(0.1875, 5, 0.25, 2), 10.25, 1e-9)
	published.Near(t, "16 t beside the gap", joining.StrapWidth(0.25, 0, 0.25, -1e9), 4.25, 1e-9)
	for _, c := range f.Plies {
		for i, w := range joining.PlyWidths(c.First, c.Width, c.N) {
			published.Near(t, "ply width", w, c.List[i], 0.0051)
		}
	}
	for _, c := range f.Stagger {
		published.Near(t, "stagger", joining.Stagger(c.T), c.Stagger, 0.0005)
	}
	b := joining.Bonded{Modulus: f.Peaks.Modulus * 1e9, Thickness: f.Peaks.Wall / 1e3, Shear: f.Peaks.LayerGPa * 1e9, LayerThickness: f.Peaks.Layer / 1e3}
	for _, c := range f.Peaks.Cases {
		published.Near(t, "peak", b.Peak(c.Length/1e3), c.Ratio, 0.06)
	}
	published.Near(t, "no length has no peak", b.Peak(0), 1, 1e-12)
	for _, c := range f.Pads {
		published.Near(t, "pad", joining.PadLoad(c.Needed, c.Has, c.Opening, c.Pad), c.Thickness, 1e-9)
	}
	if !math.IsInf(joining.PadLoad(1, 1, 6, 6), 1) {
		t.Error("a pad no wider than the opening carries")
	}
	for _, c := range f.Shear {
		published.Near(t, "shear of the pad", joining.PadShear(c.Load, c.Opening, c.Pad), c.Shear, 0.05)
	}
	for _, c := range f.Blow {
		published.Near(t, "shear of the neck", joining.BlowOut(c.Pressure, c.Diameter, c.Bonded), c.Shear, 1e-9)
	}
	for _, c := range f.Diameter {
		published.Near(t, "pad diameter", joining.PadDiameter(c.Opening*0.0254)/0.0254, c.Pad, 1e-9)
	}
}

func TestTests_agreeWithTheCheckValues(t *testing.T) {
	var f struct {
		published.Head
		Water struct {
			Gravity   float64 `json:"gravity"`
			Height    float64 `json:"height_ft"`
			PSI       float64 `json:"psi_ft"`
			Bare      float64 `json:"bare"`
			Surcharge float64 `json:"surcharge_psi"`
			Shares    []struct {
				At    float64 `json:"at_ft"`
				Share float64 `json:"share"`
			} `json:"shares"`
		} `json:"water"`
		Gas []struct {
			Gauge  float64 `json:"gauge_bar"`
			Volume float64 `json:"volume_m3"`
			Energy float64 `json:"energy_kj"`
		} `json:"gas"`
	}
	published.Load(t, "joining/tests.json", &f)
	for _, c := range f.Water.Shares {
		head := f.Water.PSI * (f.Water.Height - c.At)
		published.Near(t, "bare", joining.Proof(head, f.Water.Gravity*head), f.Water.Bare, 0.0005)
		published.Near(t, "with surcharge", joining.Proof(f.Water.Surcharge+head, f.Water.Gravity*head), c.Share, 0.005)
	}
	for _, c := range f.Gas {
		published.Near(t, "energy", joining.GasEnergy(c.Gauge*1e5, c.Volume)/1e3, c.Energy, 0.05)
	}
}
