package report_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// sample is a report made by hand: two rows, three plies, two findings.
func sample() *rules.Report {
	veil := laminate.RowFigures{
		Zone: laminate.InnerSurface, First: 1, Last: 1, Thickness: 0.4e-3, Booked: 0.5e-3, ToHere: 0.4e-3,
		Mass: 0.5, FiberMass: 0.05, GlassMass: 0.05, FiberVolume: 0.02e-3, MassKnown: true,
	}
	tested := laminate.RowFigures{Zone: laminate.StructuralLayer, First: 2, Last: 3, Thickness: 1e-3, ToHere: 2.4e-3}
	inner := laminate.Sum{Plies: 1, Thickness: 0.4e-3, Mass: 0.5, FiberMass: 0.05, GlassMass: 0.05, MassKnown: true}
	a := &laminate.Analysis{
		Rows:    []laminate.RowFigures{veil, tested},
		Barrier: inner, Total: laminate.Sum{Plies: 3, Thickness: 2.4e-3},
	}
	a.Zones[laminate.InnerSurface] = inner
	a.Zones[laminate.StructuralLayer] = laminate.Sum{Plies: 2, Thickness: 2e-3}
	return &rules.Report{
		Schedule: &laminate.Schedule{
			Head:  laminate.Head{Title: "Brine \x1b[31mheader", Job: "J-1", Revision: laminate.Some(3)},
			Plies: []laminate.Ply{{Material: "veil-c-15", Resin: "liner", Count: 1}, {Material: "panel-test", Count: 2}},
		},
		Analysis: a,
		Findings: []rules.Finding{
			{
				Rule: &rules.Rule{ID: "one-thing"}, Severity: rules.Break, Rows: []int{0, 1}, At: laminate.PlyRef(0, "material"),
				Message: "is 3 mil, must be 10 mil", Basis: "from memory", Fix: &rules.Fix{Text: "ply 1 becomes another"},
			},
			{Rule: &rules.Rule{ID: "other-thing"}, Severity: rules.Note, At: laminate.ServiceRef("fluid"), Message: "is said", Basis: "common practice, no source"},
		},
		PassedOver: []rules.Statement{{At: laminate.ServiceRef("contact"), Reason: "nothing weighs it"}},
		Verdict:    rules.Break,
	}
}

func lines(r laminate.Ref) int {
	if r.Kind == laminate.RefPly {
		return 40 + r.Index
	}
	return 0
}

func TestJudged_keepsTheNamesAndNullsThatScriptsRelyOn(t *testing.T) {
	text, err := json.Marshal(report.Judged("a.toml", nil, sample(), lines))
	if err != nil {
		t.Fatal(err)
	}
	var got, want any
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	zero := `{"thickness_mm": 0, "mass_kg_m2": 0, "fiber_mass_fraction": null, "glass_mass_fraction": null}`
	inner := `{"thickness_mm": 0.4, "mass_kg_m2": 0.5, "fiber_mass_fraction": 0.1, "glass_mass_fraction": 0.1}`
	tested := func(n, line, here string) string {
		return `{"number": ` + n + `, "line": ` + line + `, "material": "panel-test", "zone": "structural-layer", "resin": null,
			"thickness_mm": 1, "booked_thickness_mm": null, "to_here_mm": ` + here + `, "fiber_mass_fraction": null,
			"glass_mass_fraction": null, "fiber_volume_fraction": null, "mass_kg_m2": null}`
	}
	err = json.Unmarshal([]byte(`{"file": "a.toml", "title": "Brine \u001b[31mheader", "books": [], "error": null, "problems": [],
		"plies": [{"number": 1, "line": 40, "material": "veil-c-15", "zone": "inner-surface", "resin": "liner",
			"thickness_mm": 0.4, "booked_thickness_mm": 0.5, "to_here_mm": 0.4, "fiber_mass_fraction": 0.1,
			"glass_mass_fraction": 0.1, "fiber_volume_fraction": 0.05, "mass_kg_m2": 0.5},
			`+tested("2", "41", "1.4")+`, `+tested("3", "41", "2.4")+`],
		"zones": {"inner-surface": `+inner+`, "interior-layer": `+zero+`, "barrier": `+inner+`,
			"structural-layer": {"thickness_mm": 2, "mass_kg_m2": null, "fiber_mass_fraction": null, "glass_mass_fraction": null},
			"outer-surface": `+zero+`,
			"total": {"thickness_mm": 2.4, "mass_kg_m2": null, "fiber_mass_fraction": null, "glass_mass_fraction": null}},
		"findings": [{"rule": "one-thing", "severity": "break", "plies": [1, 2, 3], "message": "is 3 mil, must be 10 mil",
				"basis": "from memory", "fix": "ply 1 becomes another"},
			{"rule": "other-thing", "severity": "note", "plies": [], "message": "is said", "basis": "common practice, no source", "fix": null}],
		"not_weighed": [{"table": "service", "key": "contact", "line": 0, "reason": "nothing weighs it"}],
		"verdict": "break"}`), &want)
	if err != nil {
		t.Fatal(err)
	}
	close := cmp.Comparer(func(a, b float64) bool { return a-b < 1e-12 && b-a < 1e-12 })
	if d := cmp.Diff(want, got, close); d != "" {
		t.Error(d)
	}
}

func TestUnread_hasTheSameShape(t *testing.T) {
	read, err := json.Marshal(report.Judged("a.toml", nil, sample(), lines))
	if err != nil {
		t.Fatal(err)
	}
	unread, err := json.Marshal(report.Unread("b.toml", "the document cannot be used", nil, nil))
	if err != nil {
		t.Fatal(err)
	}
	keys := func(text []byte) []string {
		var m map[string]json.RawMessage
		if err := json.Unmarshal(text, &m); err != nil {
			t.Fatal(err)
		}
		var k []string
		for name, v := range m {
			if string(v) == "null" && name != "error" {
				t.Errorf("%s is null in %s", name, text)
			}
			k = append(k, name)
		}
		slices.Sort(k)
		return k
	}
	if d := cmp.Diff(keys(read), keys(unread)); d != "" {
		t.Error(d)
	}
}
