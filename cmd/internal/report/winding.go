package report

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/winding"
)

// Winding is what the winding command prints as JSON. Figures in SI.
type Winding struct {
	File     string     `json:"file"`
	Title    string     `json:"title"`
	Books    []string   `json:"books"`
	Error    *string    `json:"error"`
	Problems []Problem  `json:"problems"`
	Plies    []WoundPly `json:"plies"`
}

// WoundPly is a wound row; what cannot be figured is null, and Error says why.
type WoundPly struct {
	First     int       `json:"first"`
	Last      int       `json:"last"`
	Material  string    `json:"material"`
	Error     *string   `json:"error"`
	DiameterM *float64  `json:"diameter_m"`
	Pattern   *Pattern  `json:"pattern"`
	CoverMM   *float64  `json:"cover_mm"`
	Others    []Pattern `json:"other_angles"`
}

// Pattern is how a band closes a cover at an angle.
type Pattern struct {
	Asked         float64  `json:"asked_deg"`
	Angle         float64  `json:"angle_deg"`
	LeadM         *float64 `json:"lead_m"` // null along the axis
	Circuits      int      `json:"circuits"`
	CircuitsExact float64  `json:"circuits_exact"`
	OverlapM      float64  `json:"overlap_m"`
	ClosingWidthM float64  `json:"closing_width_m"`
	Layers        int      `json:"layers"`
	CoverKgM2     float64  `json:"cover_kg_m2"`
	LaidKgM2      float64  `json:"laid_kg_m2"`
}

func patternOf(asked float64, p *winding.Pattern) Pattern {
	return Pattern{
		Asked: asked, Angle: p.Angle, LeadM: known(p.Lead, !p.Endless), Circuits: p.Circuits, CircuitsExact: p.CircuitsExact,
		OverlapM: p.Overlap, ClosingWidthM: p.ClosingWidth, Layers: p.Layers, CoverKgM2: p.CoverMass, LaidKgM2: p.LaidCover,
	}
}

// WindingOf is the report of the wound plies of a schedule.
func WindingOf(file string, books []string, s *laminate.Schedule, a *laminate.Analysis, plies []winding.Ply, angles []float64) Winding {
	w := Winding{File: file, Title: s.Title, Books: list(books), Problems: []Problem{}, Plies: []WoundPly{}}
	for i := range plies {
		p := &plies[i]
		one := WoundPly{First: a.Rows[p.Row].First, Last: a.Rows[p.Row].Last, Material: p.Material.ID, Others: []Pattern{}}
		if p.Err != nil {
			text := p.Err.Error()
			one.Error = &text
		} else {
			pattern := patternOf(p.Angle, &p.Pattern)
			one.DiameterM, one.Pattern = known(p.Diameter, true), &pattern
			one.CoverMM = known(p.Laid.Thickness*mmPerM, p.LaidErr == nil)
			choices, err := winding.WhatIf(p.Band, p.Diameter, angles, nil)
			if err != nil {
				text := err.Error()
				one.Error = &text
			}
			for k := range choices {
				one.Others = append(one.Others, patternOf(choices[k].Asked, &choices[k].Pattern))
			}
		}
		w.Plies = append(w.Plies, one)
	}
	return w
}
