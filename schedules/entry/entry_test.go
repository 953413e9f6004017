package entry_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/entry"
)

func TestState_givesKeysTakesThemBackAndRefusesWhatCannotBe(t *testing.T) {
	src, j, problems := schedules.DecodeJob(schedules.ExampleJob(), catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	part, nozzle, joint := laminate.Ref{Kind: laminate.RefJobPart, Index: 1}, laminate.Ref{Kind: laminate.RefNozzle, Index: 4}, laminate.Ref{Kind: laminate.RefJoint}
	for _, c := range []struct {
		at              laminate.Ref
		key, text, want string // want is a line of the text, or what the error says
		wrong           bool
	}{
		{part, "length", "6 ft", `length          = "6 ft"`, false},
		{part, "process", "wound", `process         = "wound"`, false},
		{part, "length", `6' 1-1/2"`, `length          = "73 1/2 in"`, false},
		{part, "length", "1 ft 6", "no number of inches with its unit", true},
		{part, "modulus_retention", "80 %", `modulus_retention = 0.8`, false},
		{part, "modulus_retention", "180 %", "no percentage", true},
		{part, "temperature", "120F", `temperature = "120 degF"`, false},
		{laminate.Ref{Kind: laminate.RefService}, "concentration", "0.7 %", `concentration = 0.007`, false},
		{part, "length", "6", "unit is missing", true},
		{part, "length", "six", "is no length", true},
		{part, "form", "shell", "not one of", true},
		{part, "laminate", "x", "no [[laminate]]", true},
		{part, "id", "bottom", "another part", true},
		{part, "half_angle", "30", "shell-course has none", true},
		{part, "depht", "1 in", "no such key", true},
		{nozzle, "gussets", "6", "gussets              = 6", false},
		{nozzle, "sealed_edge", "false", "sealed_edge          = false", false},
		{nozzle, "size", "11 ft", "leaves no part", true},
		{joint, "between", "bottom, shell-2", `between      = ["bottom", "shell-2"]`, false},
		{joint, "between", "bottom,shell-2", `between      = ["bottom", "shell-2"]`, false},
		{joint, "between", "bottom", "between: two parts are expected, a comma between them: shell-1, shell-2", true},
		{joint, "between", "bottom shell-1", "two parts are expected", true},
		{joint, "between", "bottom, shell-1, shell-2", "two parts are expected", true},
		{joint, "between", "bottom, shell-9", "no [[part]]", true},
		{part, "id", "shell, low", "has a comma", true},
		{laminate.Ref{Kind: laminate.RefVessel}, "liquid_height", "13 ft", `liquid_height = "13 ft"`, false},
		{laminate.Ref{Kind: laminate.RefTest}, "medium", "gas", `medium        = "gas"`, false},
	} {
		n, err := entry.State(c.at, c.key, c.text).Do(j)
		switch {
		case c.wrong:
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s %q: %v, want %q", c.key, c.text, err, c.want)
			}
		case err != nil:
			t.Errorf("%s %q: %v", c.key, c.text, err)
		case !strings.Contains(strings.Join(strings.Fields(string(src.RenderJob(n))), " "), strings.Join(strings.Fields(c.want), " ")):
			t.Errorf("%s %q is not written as %s", c.key, c.text, c.want)
		}
	}
	for _, at := range []laminate.Ref{part, nozzle, joint} {
		for _, k := range entry.Of(j, at) {
			if k.Text == "" || k.Name == "id" || k.Name == "laminate" || k.Name == "on" || k.Name == "between" {
				continue
			}
			n, err := entry.State(at, k.Name, "").Do(j)
			if err != nil {
				t.Errorf("%s: %v", k.Name, err)
				continue
			}
			after := entry.Of(n, at)
			if i := slices.IndexFunc(after, func(x entry.Key) bool { return x.Name == k.Name }); after[i].Text != "" {
				t.Errorf("%s still says %q", k.Name, after[i].Text)
			}
			back, err := entry.State(at, k.Name, k.Text).Do(n)
			if err != nil || !schedules.SameJob(back, j) {
				t.Errorf("%s given back %q: %v", k.Name, k.Text, err)
			}
		}
	}
}

// wholeOf is the part of a place: none of what all parts share.
func wholeOf(kind laminate.RefKind) int {
	if kind == laminate.RefService {
		return -1
	}
	return 0
}

// The service that all parts share is stated as people type it: figures and words
// with commas, one word of a list, none of them.
func TestState_givesTheServiceOfTheWhole(t *testing.T) {
	src, j, problems := schedules.DecodeJob(schedules.ExampleJob(), catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	at := laminate.Ref{Kind: laminate.RefService, Part: -1}
	for _, c := range [][3]string{
		{"fluid", "rinse water", `fluid = "rinse water"`}, {"concentration", "15 %", "concentration = 0.15"}, {"concentration", "0.7 %", "concentration = 0.007"}, {"ph", "5.5 to 7", "ph = [5.5, 7]"}, {"ph", "7", "ph = [7, 7]"},
		{"contains", "brine, solids", `contains = ["brine", "solids"]`}, {"contains", "solids", `contains = ["solids"]`}, {"contains", entry.None, "contains = []"},
		{"pressure", "1 psi", `pressure = "1 psi"`},
	} {
		n, err := entry.State(at, c[0], c[1]).Do(j)
		if err != nil {
			t.Errorf("%s %q: %v", c[0], c[1], err)
			continue
		}
		if got := strings.Join(strings.Fields(string(src.RenderJob(n))), " "); !strings.Contains(got, c[2]) {
			t.Errorf("%s %q is not written as %s", c[0], c[1], c[2])
		}
		for _, k := range entry.Of(n, at) {
			if k.Name == c[0] && k.Text != c[1] {
				t.Errorf("%s %q reads %q", c[0], c[1], k.Text)
			}
		}
	}
	// What is typed in another way is the same value, and reads as all of them do.
	for _, c := range [][3]string{{"concentration", "0.15", "15 %"}, {"concentration", "15", "15 %"}, {"concentration", "0", "0 %"}, {"ph", "5.5, 7", "5.5 to 7"}, {"ph", "[5.5, 7]", "5.5 to 7"},
		{"ph", "5.5-7", "5.5 to 7"}, {"vacuum", "0", "0 psi"}} {
		n, err := entry.State(at, c[0], c[1]).Do(j)
		if err != nil {
			t.Errorf("%s %q: %v", c[0], c[1], err)
			continue
		}
		for _, k := range entry.Of(n, at) {
			if k.Name == c[0] && k.Text != c[2] {
				t.Errorf("%s %q reads %q", c[0], c[1], k.Text)
			}
		}
	}
	for _, c := range [][3]string{{"ph", "acid", "lowest and highest"}, {"ph", "-1 to 3", "lowest and highest"}, {"concentration", "1", "1 % or 100 %"}, {"concentration", "150", "percentage"}, {"temperature", "0", "unit"}, {"contains", "sand", "sand"}, {"temperature", "90", "unit"}} {
		if _, err := entry.State(at, c[0], c[1]).Do(j); err == nil || !strings.Contains(err.Error(), c[2]) {
			t.Errorf("%s %q: %v", c[0], c[1], err)
		}
	}
}

// Every key of a form says what it means, in as many cells as its line has at 80
// columns, and none is explained that is not there.
func TestOf_saysWhatEveryKeyMeans(t *testing.T) {
	_, j, problems := schedules.DecodeJob(schedules.ExampleJob(), catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, kind := range []laminate.RefKind{laminate.RefService, laminate.RefVessel, laminate.RefTest, laminate.RefBond, laminate.RefJobPart, laminate.RefNozzle, laminate.RefJoint, laminate.RefLaminate} {
		seen := map[string]bool{}
		for _, k := range entry.Of(j, laminate.Ref{Kind: kind, Part: wholeOf(kind)}) {
			seen[k.Name] = true
			if k.Says == "" {
				t.Errorf("%d: %s is not explained", kind, k.Name)
			}
			if len(k.Says) > 44 {
				t.Errorf("%d: what %s means takes %d cells", kind, k.Name, len(k.Says))
			}
		}
		for _, name := range entry.Explained(kind) {
			if !seen[name] {
				t.Errorf("%d: %s is explained, and no key", kind, name)
			}
		}
	}
}

// Where nothing is an answer a bare 0 says it; where it is none the value is refused,
// and a text is quoted as it was typed.
func TestState_takesABareZero(t *testing.T) {
	_, j, problems := schedules.DecodeJob(schedules.ExampleJob(), catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	si := j.Clone()
	si.Units = quantity.Metric
	joint := laminate.Ref{Kind: laminate.RefJoint, Index: 1}
	for _, c := range []struct {
		in        *laminate.Job
		at        laminate.Ref
		key, want string
	}{
		{j, joint, "axial_load", "0 lb/in"}, {si, joint, "axial_load", "0 kN/m"}, {j, joint, "gap", "0 in"}, {si, joint, "gap", "0 mm"},
		{j, laminate.Ref{Kind: laminate.RefTest}, "pressure", "0 psi"}, {j, laminate.Ref{Kind: laminate.RefVessel}, "liquid_height", "0 in"},
		{j, laminate.Ref{Kind: laminate.RefNozzle}, "height", "0 in"},
	} {
		n, err := entry.State(c.at, c.key, " 0").Do(c.in)
		if err != nil {
			t.Errorf("%s: %v", c.key, err)
			continue
		}
		for _, k := range entry.Of(n, c.at) {
			if k.Name == c.key && k.Text != c.want {
				t.Errorf("%s is %q, want %q", c.key, k.Text, c.want)
			}
		}
	}
	for _, c := range [][3]string{{"width", "0", "not above zero"}, {"gap", "5", "unit is missing"}, {"axial_load", "0BP-1, bonders qualified", `"BP-1, bonders qualified" is not a unit`}} {
		if _, err := entry.State(joint, c[0], c[1]).Do(j); err == nil || !strings.Contains(err.Error(), c[2]) {
			t.Errorf("%s %q: %v", c[0], c[1], err)
		}
	}
}

// A proof of a part, a joint or a nozzle is stated key by key, refused where it cannot be,
// written, and read back as it was; what differs of it is told.
func TestState_aProofIsWrittenAndReadBack(t *testing.T) {
	text := schedules.ExampleJob()
	source, j, problems := schedules.DecodeJob(text, catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	values := [][2]string{{"proved_by", "calculation 45, revision 2"}, {"proved_pressure", "12 psi"}, {"proved_vacuum", "0.5 psi"}, {"proved_temperature", "150 degF"}, {"proved_structure", "0.3 in"}}
	was := j
	for _, at := range []laminate.Ref{{Kind: laminate.RefJobPart, Index: 4}, {Kind: laminate.RefJoint, Index: 1}, {Kind: laminate.RefNozzle, Index: 2}} {
		for _, v := range values {
			n, err := entry.State(at, v[0], v[1]).Do(j)
			if err != nil {
				t.Fatal(v, err)
			}
			j = n
		}
		for _, v := range [][2]string{{"proved_pressure", "-1 psi"}, {"proved_vacuum", "1 in"}, {"proved_temperature", "9000 degF"}, {"proved_structure", "0 in"}, {"proved_structure", "9 ft"}} {
			if _, err := entry.State(at, v[0], v[1]).Do(j); err == nil {
				t.Errorf("%s %s is taken", v[0], v[1])
			}
		}
	}
	_, read, problems := schedules.DecodeJob(source.RenderJob(j), catalog.Library(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, p := range []others.Proof{read.Parts[4].Proof, read.Joints[1].Proof, read.Nozzles[2].Proof} {
		if p != j.Parts[4].Proof || p.By != values[0][1] || p.Vacuum.Text() != "0.5 psi" {
			t.Errorf("%+v", p)
		}
	}
	if n := len(schedules.JobChanges(was, read)); n != 3*len(values) {
		t.Errorf("%d changes are told", n)
	}
}
