package schedules

import (
	"os"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/spec"
)

func TestDecodeSpecification_readsEveryKey(t *testing.T) {
	b, err := os.ReadFile("../testdata/specifications/acid-drain.toml")
	if err != nil {
		t.Fatal(err)
	}
	d, problems := DecodeSpecification(b)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	switch {
	case d.Title != "Acid drain headers" || d.Number != "S-204 B":
		t.Errorf("head: %q %q", d.Title, d.Number)
	case len(d.Barrier.VeilFiber) != 2 || d.Barrier.VeilFiber[1] != laminate.Polyester:
		t.Errorf("veil fiber: %v", d.Barrier.VeilFiber)
	case d.Barrier.Thickness.Highest.Text() != "140 mil" || d.Structure.Thickness.Highest.Given():
		t.Errorf("thickness: %v %v", d.Barrier.Thickness, d.Structure.Thickness)
	case !d.OuterSurface.Value || d.Total.Lowest.Text() != "0.15 in":
		t.Errorf("outer surface %v, total %v", d.OuterSurface, d.Total)
	case len(d.Sequence) != 3 || d.Sequence[0].Plies != 1 || !d.Sequence[2].Any:
		t.Errorf("sequence: %v", d.Sequence)
	case len(d.Inspection.Defects) != 2 || d.Inspection.Defects[0].Kind != spec.Pit || d.Inspection.Defects[1].SizeMax.Text() != "1/16 in":
		t.Errorf("defects: %v", d.Inspection.Defects)
	case d.Inspection.Barcol.Value != 32 || d.Inspection.ResistanceToGroundMax.Text() != "10 Mohm":
		t.Errorf("inspection: %v", d.Inspection)
	}
}

func TestDecodeSpecification_tellsTheLine(t *testing.T) {
	head := "document = \"specification\"\nformat = 1\n"
	cases := []struct {
		text string
		line int
		key  string
		want string
	}{
		{"[barrier]\nveil_fibre = [\"c-glass\"]\n", 4, "barrier.veil_fibre", `"veil_fiber"`},
		{"[barrier]\nthickness = [\"140 mil\", \"100 mil\"]\n", 4, "barrier.thickness", "lowest"},
		{"[barrier]\nthickness = [100, 140]\n", 4, "barrier.thickness", "units"},
		{"[barrier]\nglass_content = [0.2, 1.2]\n", 4, "barrier.glass_content", "between 0 and 1"},
		{"[barrier]\nglass_content = [nan, 0.3]\n", 4, "barrier.glass_content", "number"},
		{"[barrier]\nresin = [\"vinylester\"]\n", 4, "barrier.resin", "vinyl-ester"},
		{"number = \"\\u0007\"\n", 3, "number", "U+0007"},
		{"[barrier]\nresin = []\n", 4, "barrier.resin", "empty"},
		{"[structure]\nangle = [53, 97]\n", 4, "structure.angle", "between 0 and 90"},
		{"[[sequence]]\nany = true\n[[sequence]]\nform = \"veil\"\n", 4, "sequence.any", "alone"},
		{"[[sequence]]\nplies = 2\n", 3, "sequence", "form"},
		{"[inspection]\nspot_minimum = 1.2\n", 4, "inspection.spot_minimum", "share"},
		{"[inspection]\nbarcol_readings = 3\n", 4, "inspection.barcol_readings", "3 readings make no average: the two highest and the two lowest are left out of it, and ASTM D2583 asks for 10 or more"},
		{"[[inspection.plan]]\nof = \"barcol\"\nnumber = 1\n", 5, "inspection.plan.number", `1 reading makes no average`},
		{"[inspection]\nbarcol = 140\n", 4, "inspection.barcol", "0 to 100"},
		{"[inspection]\n[[inspection.defect]]\nkind = \"pit\"\n[[inspection.defect]]\nkind = \"pit\"\nsizemax = \"1 in\"\n", 8, "inspection.defect.sizemax", "size_max"},
		{"[[inspection.defect]]\nsize_max = \"1 in\"\n", 3, "inspection.defect.kind", "missing"},
		{"[[inspection.defect]]\nkind = \"pitt\"\n", 4, "inspection.defect.kind", `"pit"`},
		{"[inspection]\ndefect = [{kind = \"pit\"},\n {kind = \"pit\", sizemax = \"1 in\"}]\n", 5, "inspection.defect.sizemax", "size_max"},
		{"[inspection]\ndefect = 3\n", 4, "inspection.defect", "tables"},
		{"[part]\nform = \"pipe\"\n", 3, "part", ""},
	}
	for _, c := range cases {
		d, problems := DecodeSpecification([]byte(head + c.text))
		if d != nil || len(problems) != 1 {
			t.Errorf("%q: %v problems, want one", c.text, problems)
			continue
		}
		p := problems[0]
		if p.Line != c.line || p.Key != c.key || !strings.Contains(p.Message, c.want) {
			t.Errorf("%q: %s (line %d key %s), want line %d key %s with %q", c.text, p, p.Line, p.Key, c.line, c.key, c.want)
		}
	}
}

func FuzzDecodeSpecification(f *testing.F) {
	b, err := os.ReadFile("../testdata/specifications/acid-drain.toml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(b)
	f.Add([]byte("document = \"specification\"\nformat = 1\ninspection.defect = [{kind = \"pit\"}]\n"))
	f.Add([]byte("document = \"specification\"\nformat = 1\n[[inspection.defect]]\n[inspection.defect.x]\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		d, problems := DecodeSpecification(b)
		if (d == nil) != (len(problems) > 0) {
			t.Fatalf("specification %v with problems %v", d != nil, problems)
		}
	})
}
