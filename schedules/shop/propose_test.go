package shop_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/rules/joint"
	"frp/veilwright/schedules/shop"
)

// drawn is the text of a job that states its facts and leaves laminates out.
func drawn(t *rapid.T) string {
	var b strings.Builder
	put := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	// Of some jobs facts are left out now and then: a small number is drawn more often
	// than its share.
	whole := rapid.Bool().Draw(t, "whole")
	fact := func(format string, args ...any) {
		if whole || rapid.IntRange(0, 40).Draw(t, "left out") > 0 {
			put(format, args...)
		}
	}
	pick := func(of string, from ...string) string { return rapid.SampledFrom(from).Draw(t, of) }
	metric := rapid.Bool().Draw(t, "metric")
	put("document = \"job\"\nformat = 1\ntitle = \"Drawn\" # by lot")
	if metric {
		put("units = \"si\"")
	}
	fluid := rapid.SampledFrom([][2]string{{"brine", "[\"brine\"]"}, {"hydrochloric acid", "[\"strong-acid\"]"}, {"bleach", "[\"hypochlorite\", \"strong-base\"]"},
		{"acid with fluorides", "[\"fluorides\", \"strong-acid\"]"}, {"rinse", "[]"}}).Draw(t, "fluid")
	put("[service]")
	fact("fluid = %q", fluid[0])
	put("contains = %s", fluid[1])
	fact("concentration = 0.1")
	fact("temperature = \"%d degF\"", rapid.IntRange(60, 180).Draw(t, "temperature"))
	if fluid[0] == "bleach" {
		fact("ph = [11, 13]")
	} else {
		fact("ph = [2.5, 8]")
	}
	fact("pressure = \"%d psi\"", rapid.SampledFrom([]int{0, 0, 0, 2, 5, 15}).Draw(t, "pressure"))
	fact("vacuum = \"%v psi\"", rapid.SampledFrom([]float64{0, 0, 0, 0.1, 0.5}).Draw(t, "vacuum"))
	fact("specific_gravity = %v", rapid.SampledFrom([]float64{0.9, 1, 1.2, 1.5}).Draw(t, "gravity"))
	put("conductive = false\nabrasive = false")
	courses := rapid.IntRange(1, 4).Draw(t, "courses")
	tall := rapid.IntRange(3, 8).Draw(t, "course")
	put("[vessel]")
	fact("liquid_height = \"%d ft\"", max(1, courses*tall-rapid.IntRange(0, 3).Draw(t, "free")))
	put("rim = \"angle ring\"")
	switch rapid.IntRange(0, 3).Draw(t, "resins") {
	case 1:
		put("[[resin]]\nid = \"one\"\nfamily = %q\ncure = \"peroxide-amine\"", pick("family", "vinyl-ester", "novolac-vinyl-ester", "isophthalic-polyester", "bisphenol-fumarate-polyester"))
	case 2:
		put("[[resin]]\nid = \"barrier\"\nfamily = \"vinyl-ester\"\ncure = \"peroxide-amine\"\n[[resin]]\nid = \"structure\"\nfamily = \"vinyl-ester\"\ncure = \"peroxide-amine\"")
	}
	d := rapid.IntRange(24, 144).Draw(t, "diameter")
	if metric {
		d = d * 25 // mm, near enough
	}
	unit := map[bool]string{true: "mm", false: "in"}[metric]
	ids := []string{}
	part := func(id, form, process string) {
		ids = append(ids, id)
		put("\n[[part]] # %s\nid = %q\nform = %q\nprocess = %q\ninside_diameter = \"%d %s\"", id, id, form, process, d, unit)
	}
	if rapid.Bool().Draw(t, "marked") {
		put("\n[[laminate]]\nid = \"shell-wall\"")
	}
	head := func(id string) {
		shape := pick("head", "torispherical", "ellipsoidal", "hemispherical")
		part(id, "head", "contact")
		put("shape = %q", shape)
		switch shape {
		case "torispherical":
			put("crown_radius = \"%d %s\"\nknuckle_radius = \"%v %s\"", d, unit, float64(d)*0.1, unit)
		case "ellipsoidal":
			put("depth = \"%v %s\"", float64(d)/4, unit)
		}
	}
	if rapid.Bool().Draw(t, "flat") {
		part("bottom", "flat-bottom", "contact")
		fact("supported = true")
	} else {
		head("bottom")
	}
	process := pick("process", "contact", "wound")
	for i := range courses {
		part(fmt.Sprintf("shell-%d", i+1), "shell-course", process)
		if strings.Contains(b.String(), "shell-wall") && i == 0 {
			put("laminate = \"shell-wall\"")
		}
		fact("length = \"%d ft\"", tall)
	}
	if rapid.Bool().Draw(t, "closed") {
		head("head")
	}
	// Parts beside the shell.
	if rapid.Bool().Draw(t, "line") {
		part("line", "pipe", pick("its process", "contact", "wound"))
		fact("length = \"20 ft\"")
		put("ends = \"closed\"\nflanged = true")
		fact("liquid_height = \"0 ft\"") // nothing ties it to the shell
	}
	if rapid.Bool().Draw(t, "bend") {
		part("bend", "elbow", "contact")
		put("bend_radius = \"%v %s\"\nturn = 90\nmiters = 0\nends = \"closed\"", float64(d)*1.5, unit)
		fact("liquid_height = \"0 ft\"")
	}
	ends := ""
	if rapid.Bool().Draw(t, "flanged") {
		put("\n[[part]] # by the shop's table\nid = \"flange\"\nform = \"flange\"\nprocess = \"contact\"\nsize = \"6 in\"\ndrilling = \"class-150\"\npressure_class = \"150 psi\"\ntorque = \"90 ft-lb\"\nmate_face = \"flat\"\nwashers = true\ncount = 6")
		fact("thickness = \"1 in\"")
		deepest := courses*tall + 8                // in a head that hangs below, what a nozzle ends in hides from none of it
		fact("liquid_height = \"%d ft\"", deepest) // no nozzle may name it
		put("\n[[part]]\nid = \"lid\"\nform = \"cover\"\nprocess = \"contact\"\nsize = \"6 in\"\ndrilling = \"class-150\"\nedge = \"simply-supported\"\ncount = 6")
		fact("liquid_height = \"%d ft\"", deepest)
		ends = "flange = \"flange\"\ncover = \"lid\""
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "nozzles") {
		on := rapid.SampledFrom(ids).Draw(t, "on")
		put("\n[[nozzle]]\nid = \"N%d\"\non = %q\nkind = %q", i+1, on, pick("kind", "penetrating", "set-on", "conical"))
		size := rapid.SampledFrom([]int{1, 2, 3, 4, 6, 8, 12}).Draw(t, "size")
		fact("size = \"%d in\"", size)
		fact("height = \"%d in\"", rapid.IntRange(6, min(36, 12*tall-6)).Draw(t, "height")) // whole on its part
		fact("pressure_class = \"%d psi\"", rapid.SampledFrom([]int{50, 100, 150}).Draw(t, "class"))
		put("sealed_edge = true\npiping_load = false")
		if ends != "" && size == 6 && rapid.Bool().Draw(t, "with its flange") {
			put("%s", ends)
		}
		if rapid.Bool().Draw(t, "projection") {
			put("projection = \"6 in\"")
		}
	}
	if rapid.Bool().Draw(t, "joint") && len(ids) > 1 {
		put("\n[[joint]]\nid = \"J1\" # the lowest\nbetween = [%q, %q]\ngap = \"1/8 in\"\naxial_load = \"0 lb/in\"\nqualification = \"procedure 4\"", ids[0], ids[1])
	}
	return b.String()
}

func opened(t interface {
	Helper()
	Fatalf(string, ...any)
}, text []byte) *shop.Opened {
	t.Helper()
	o := shop.New(shop.Options{NoBook: true}).Open("drawn.toml", text, "")
	if !o.Usable() {
		t.Fatalf("%s in\n%s", o.Why(), text)
	}
	return o
}

func proposedFor(t interface {
	Helper()
	Fatalf(string, ...any)
}, o *shop.Opened, options advice.Options) (*equipment.Proposal, *shop.Opened) {
	t.Helper()
	options.Units = o.Job.Units
	p, err := equipment.Propose(o.Job, o.Library, equipment.Options{Options: options})
	if err != nil {
		t.Fatalf("%v", err)
	}
	return p, opened(t, o.Source.RenderJob(p.Noted()))
}

// placed tells that a nozzle is stated where a strap has to lie, and that the proposal
// says so: it moves no nozzle.
func placed(p *equipment.Proposal, f *rules.Finding) bool {
	return f.Rule.ID == joint.OpeningOffPart.ID && slices.ContainsFunc(p.Broken, func(l equipment.Line) bool { return l.At == f.At && strings.Contains(l.Text, f.Message) })
}

// Whatever job is drawn: what is proposed reads back as it was meant, breaks no
// rule or says which fact is missing, and a second proposal changes nothing.
func TestPropose_leavesNoBreakOrSaysWhatIsMissing(t *testing.T) {
	filled, whole := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		o := opened(t, []byte(drawn(t)))
		p, again := proposedFor(t, o, advice.Options{})
		r := again.JudgeJob(rules.Options{Units: o.Job.Units})
		if r.Verdict != p.Report.Verdict {
			t.Fatalf("read back it is %s, proposed %s", r.Verdict, p.Report.Verdict)
		}
		for i, part := range r.Parts {
			for k := range part.Findings {
				if f := &part.Findings[k]; f.Severity == rules.Break && !said(p, i) {
					t.Fatalf("part %s breaks %s: %s\nleft: %v\n%s", again.Job.Parts[i].ID, f.Rule.ID, f.Message, p.Left, again.Text)
				}
			}
		}
		for k := range r.Findings {
			if f := &r.Findings[k]; f.Severity == rules.Break && !why(p, f.At) && !placed(p, f) {
				t.Fatalf("%s: %s\nleft: %v\n%s", f.Rule.ID, f.Message, p.Left, again.Text)
			}
		}
		// A part is without a wall for a fact, never for want of trying.
		for i := range again.Job.Parts {
			q := &again.Job.Parts[i]
			at := again.Job.Laminate(q.Laminate)
			if at >= 0 && len(again.Job.Laminates[at].Plies) > 0 {
				filled++
				continue
			}
			if facts(again.Job, i) && !unsuited(p, i) {
				t.Fatalf("part %s has no wall though its facts are stated: %v\n%s", q.ID, p.Left, again.Text)
			}
		}
		if len(p.Left) == 0 {
			whole++
		}
		// What stood there stands there still, in its order.
		rest := again.Text
		for _, line := range bytes.Split(o.Text, []byte("\n")) {
			at := bytes.Index(rest, line)
			if at < 0 && !bytes.HasPrefix(line, []byte("laminate")) {
				t.Fatalf("the line %q is gone, or stands elsewhere\n%s", line, again.Text)
			}
			if at >= 0 {
				rest = rest[at+len(line):]
			}
		}
		second, third := proposedFor(t, again, advice.Options{})
		if !bytes.Equal(third.Text, again.Text) || len(second.Filled) > 0 {
			t.Fatalf("a second proposal filled in %v", second.Filled)
		}
		if anew, last := proposedFor(t, again, advice.Options{Replace: true}); anew.Report.Verdict > p.Report.Verdict {
			t.Fatalf("proposed anew it is %s, before %s: %v\n%s", anew.Report.Verdict, p.Report.Verdict, anew.Left, last.Text)
		}
	})
	t.Logf("%d walls filled in, %d jobs whole", filled, whole)
	if filled == 0 || whole == 0 {
		t.Fatalf("%d walls filled in, %d jobs whole: the property says nothing", filled, whole)
	}
}

// said tells whether a part was left without a wall, with why.
func said(p *equipment.Proposal, part int) bool {
	for _, l := range p.Left {
		if l.At.Kind == laminate.RefJobPart && l.At.Index == part && l.At.Key == "laminate" {
			return true
		}
	}
	return false
}

// why tells whether it was said what is missing at a joint or nozzle.
func why(p *equipment.Proposal, at laminate.Ref) bool {
	for _, l := range p.Left {
		if l.At.Kind == at.Kind && l.At.Index == at.Index {
			return true
		}
	}
	return false
}

// facts tells whether a part states what its wall depends on.
func facts(j *laminate.Job, part int) bool {
	s := j.Wall(part)
	return s.Service.Pressure.Given() && s.Service.Vacuum.Given() && (s.Service.SpecificGravity.Given && s.Part.LiquidHeight.Given() || !form.Asks(s) && !s.Part.LiquidHeight.Given())
}

// unsuited tells whether another reason than a fact of the load was said.
func unsuited(p *equipment.Proposal, part int) bool {
	for _, l := range p.Left {
		_, reason, _ := strings.Cut(l.Text, "has no wall: ")
		if l.At.Kind == laminate.RefJobPart && l.At.Index == part && (strings.Contains(reason, "cannot be determined: ") || strings.Contains(reason, "no barrier to begin with")) {
			return true
		}
	}
	return false
}
