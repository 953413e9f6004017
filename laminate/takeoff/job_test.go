package takeoff_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
)

func TestOfJob_agreesWithTheHandCheckOfAStrapAndAHead(t *testing.T) {
	var f struct {
		published.Head
		Diameter float64 `json:"diameter_in"`
		First    float64 `json:"first_in"`
		Width    float64 `json:"width_in"`
		Area     float64 `json:"area_m2"`
		Fiber    float64 `json:"fiber_kg"`
		Mix      float64 `json:"mix_kg"`
		Dome     struct {
			Diameter float64 `json:"diameter_in"`
			Area     float64 `json:"area_ft2"`
			Mat      float64 `json:"mat_lb"`
		} `json:"head"`
	}
	published.Load(t, "takeoff/strap.json", &f)
	s, _ := pipe(t)
	mat, woven := s.Plies[3], s.Plies[4]
	s.Plies = nil
	for i := range 9 {
		s.Plies = append(s.Plies, []laminate.Ply{mat, woven}[i%2])
	}
	in := quantity.New(1, quantity.Inch).SI()
	strap := takeoff.Piece{Schedule: s, Ground: ground.Strap(f.Diameter*in, joining.PlyWidths(f.First*in, f.Width*in, 9))}
	p := takeoff.Count([]takeoff.Piece{strap}, catalog.Library(), stock.Stock{}, takeoff.Options{}).Pieces[0]
	published.Near(t, "area", p.Area, f.Area, 0.001)
	published.Near(t, "fiber", p.Fiber, f.Fiber, 0.002) // by hand with thicknesses rounded to a mil
	published.Near(t, "mix", p.Mix, f.Mix, 0.002)

	j := &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "l", Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 1}}}},
		Parts: []laminate.JobPart{{ID: "h", Laminate: "l", Part: laminate.Part{
			Form: laminate.HeadPart, InsideDiameter: quantity.New(f.Dome.Diameter, quantity.Inch),
			Shape: laminate.Shape{Head: laminate.Torispherical, CrownRadius: quantity.New(f.Dome.Diameter, quantity.Inch), KnuckleRadius: quantity.New(0.06*f.Dome.Diameter, quantity.Inch)},
		}}},
	}
	got := takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), stock.Stock{}, takeoff.Options{})
	published.Near(t, "inside of the head", got.Pieces[0].Inside/(0.3048*0.3048), f.Dome.Area, 0.01)
}

// Every piece of a job counts: its parts, as often as they stand in it, straps,
// seals, pads and necks; what is not stated is named.
func TestOfJob_listsWhatIsBuiltAndNamesWhatIsMissing(t *testing.T) {
	inch := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	plies := []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Zone: laminate.StructuralLayer, Count: 2}}
	j := &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "l", Plies: plies}},
		Parts: []laminate.JobPart{
			{ID: "a", Laminate: "l", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: inch(12), Length: inch(120)}},
			{ID: "b", Laminate: "l", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: inch(12), Length: inch(120)}},
			{ID: "f", Laminate: "l", Part: laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: inch(12), Drilling: laminate.Class150, Count: laminate.Some(4)}}},
		},
		Joints:  []laminate.Joint{{ID: "J", Between: [2]string{"a", "b"}, Outside: "l", Inside: "l", Width: inch(6), FirstWidth: inch(2)}},
		Nozzles: []laminate.Nozzle{{ID: "N", On: "a", Size: inch(2), Pad: "l", PadDiameter: inch(8), InstallationOutside: "l", Neck: "l", NeckBond: inch(3), Projection: inch(6)}},
	}
	own := stock.Stock{Takeoff: stock.Takeoff{HoursJoint: laminate.Some(4.0), HoursNozzle: laminate.Some(6.0)}}
	got := takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), own, takeoff.Options{})
	var names []string
	missing := ""
	for i := range got.Pieces {
		names = append(names, got.Pieces[i].Name)
		missing += got.Pieces[i].Why
	}
	if len(names) != 8 || missing != "the width of the seal is not stated (inside_width)" || !got.Incomplete() {
		t.Errorf("%q, missing %q", names, missing)
	}
	j.Joints[0].Outside, j.Nozzles[0] = "", laminate.Nozzle{ID: "N", On: "a"}
	for _, f := range takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), own, takeoff.Options{}).Pieces {
		if want := f.Name == "joint J, strap" || f.Name == "nozzle N" || f.Name == "joint J, seal"; want != (f.Why != "") {
			t.Errorf("%s: %q", f.Name, f.Why)
		}
	}
	published.Near(t, "four flange faces", got.Pieces[2].Inside/(inch(1).SI()*inch(1).SI()), 4*170.4, 0.3)
	hours := 0.0
	for _, l := range got.Labor {
		hours += l.Quantity
	}
	published.Near(t, "hours of one joint and one nozzle", hours, 10, 1e-9)
}

// What a mitered elbow and a flange take beyond what is counted is said: the elbow of
// engineering's check has two seams of 78.5 in on its face, and of a wall of no thickness
// that is their outer face too.
func TestOfJob_leavesSeamsAndStubsOutAloud(t *testing.T) {
	j := &laminate.Job{Parts: []laminate.JobPart{
		{ID: "E", Part: laminate.Part{Form: laminate.Elbow, InsideDiameter: quantity.New(24, quantity.Inch),
			Shape: laminate.Shape{BendRadius: quantity.New(36, quantity.Inch), Turn: laminate.Some(90.0), Miters: laminate.Some(2), Count: laminate.Some(3)}}},
		{ID: "F", Part: laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: quantity.New(24, quantity.Inch), Drilling: laminate.Class150}}},
	}}
	got := takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), stock.Stock{}, takeoff.Options{})
	seams := got.Pieces[1]
	if seams.Name != "part E, seams" || seams.Count != 6 || !strings.HasPrefix(seams.Why, "2 seams, each 78.5") || !got.Incomplete() {
		t.Errorf("%s, %d: %s", seams.Name, seams.Count, seams.Why)
	}
	if !remarked(got, "stub-not-counted", "their ring alone") {
		t.Errorf("%+v", got.Remarks)
	}
	if remarked(got, "gussets-not-counted", "") {
		t.Error("gussets are missed of a job without nozzles")
	}
	j.Nozzles = []laminate.Nozzle{{ID: "N1", On: "F", Gussets: laminate.Some(4)}, {ID: "N2", On: "F", Gussets: laminate.Some(3)}, {ID: "N3", On: "F"}}
	if got = takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), stock.Stock{}, takeoff.Options{}); !remarked(got, "gussets-not-counted", "7 gussets") {
		t.Errorf("%+v", got.Remarks)
	}
	j.Nozzles = nil
	j.Parts[0].Miters = laminate.Some(0)
	if got = takeoff.Count(takeoff.OfJob(j, catalog.Library()), catalog.Library(), stock.Stock{}, takeoff.Options{}); len(got.Pieces) != 2 {
		t.Errorf("a smooth elbow has %d pieces", len(got.Pieces))
	}
}
