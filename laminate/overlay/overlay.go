// Package overlay lists the laminates of a job that are laid by themselves: over
// a joint, at a nozzle, in the corner of a bottom. Each has its plies in the order
// of laying, what they are laid on, and one name for pages, papers and records.
package overlay

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/word"
)

// Kind is which laminate of a joint, nozzle or bottom it is.
type Kind uint8

// The kinds; None is the wall of a part.
const (
	None Kind = iota
	Strap
	Seal
	Neck
	LaidInside
	Pad
	LaidOutside
	Knuckle
)

// Kinds are the words of the kinds in documents: a job names the laminates by
// keys of the same words.
var Kinds = word.Of[Kind]("", "outside", "inside", "neck", "installation-inside", "pad", "installation-outside", "knuckle")

func (k Kind) String() string { return Kinds.Name(k) }

// Key is the key of the joint, nozzle or part that names the laminate.
func (k Kind) Key() string { return strings.ReplaceAll(k.String(), "-", "_") }

// said are the kinds as people say them.
var said = [...]string{Strap: "strap", Seal: "seal", Neck: "neck", LaidInside: "laid inside", Pad: "pad", LaidOutside: "laid outside", Knuckle: "knuckle"}

// Said is the kind as people say it, "" of a wall.
func (k Kind) Said() string { return said[k] }

// Inside tells of what is laid from the process side and has a veil, which comes
// last: the reverse of a wall.
func (k Kind) Inside() bool { return k == Seal || k == LaidInside }

// Face is which face of the wall it is laid on, "" where it has none. A knuckle has no
// barrier: it bears the fluid on neither face but the outside.
func (k Kind) Face() string {
	switch k {
	case Strap, Pad, LaidOutside, Knuckle:
		return "outside"
	case Seal, LaidInside:
		return "inside"
	case None, Neck:
	}
	return ""
}

// Wets tells of what the fluid touches.
func (k Kind) Wets() bool { return k.Inside() || k == Neck }

// Bonds tells of what is laid onto a cured face: a neck has a mandrel of its own.
func (k Kind) Bonds() bool { return k != None && k != Neck }

// Overlay is one of them, whether a laminate is named for it or not.
type Overlay struct {
	Kind     Kind
	At       laminate.Ref // the joint, nozzle or part of the job
	Of       string       // id of the joint or nozzle; "" of a knuckle
	Part     string       // id of the part it is laid on, of a joint the first
	Other    string       // of a joint the second
	Laminate string       // id; "" where none is named
}

// Name says which one it is: "joint J1, strap"; of a laminate by itself its id.
func (o *Overlay) Name() string {
	if o.Kind == None {
		return "laminate " + o.Laminate
	}
	return o.Where() + ", " + o.Kind.Said()
}

// Where is the joint, nozzle or part that it is at: "joint J1".
func (o *Overlay) Where() string {
	switch o.At.Kind {
	case laminate.RefJoint:
		return "joint " + o.Of
	case laminate.RefNozzle:
		return "nozzle " + o.Of
	default:
	}
	return "part " + o.Part
}

// Lacks says in one sentence that no laminate is named for it, "" where one is.
func (o *Overlay) Lacks(j *laminate.Job) string {
	switch {
	case o.Laminate == "":
		return o.Where() + " names no laminate for its " + o.Kind.Noun() + " (" + o.Kind.Key() + ")"
	case j.Laminate(o.Laminate) < 0:
		return o.Where() + " names a laminate that is not in the job: " + o.Laminate + " (" + o.Kind.Key() + ")"
	case len(j.Laminates[j.Laminate(o.Laminate)].Plies) == 0:
		return "laminate " + o.Laminate + " of " + o.Name() + ", has no ply"
	}
	return ""
}

// Noun is the kind as what is laid: "overlay outside".
func (k Kind) Noun() string {
	switch k {
	case LaidInside:
		return "overlay inside"
	case LaidOutside:
		return "overlay outside"
	default:
	}
	return k.Said()
}

// Schedule is the overlay by itself: its plies in the order of laying, and what
// they are made of. It is empty where no laminate is named.
func (o *Overlay) Schedule(j *laminate.Job) *laminate.Schedule {
	i := j.Laminate(o.Laminate)
	if o.Laminate == "" || i < 0 {
		return &laminate.Schedule{}
	}
	s := j.Schedule(i)
	s.Part.Place.Lined = o.Kind.Inside()
	return s
}

// Ground is what its plies are laid on; the error names what is missing, and what
// is known all the same is there. lib must not be nil.
func (o *Overlay) Ground(j *laminate.Job, lib *laminate.Library) (ground.Ground, error) {
	neck := func() *laminate.Analysis {
		if i := j.Laminate(j.Nozzles[o.At.Index].Neck); i >= 0 {
			return laminate.Analyze(j.Schedule(i), lib)
		}
		return nil
	}
	switch o.Kind {
	case Strap:
		return ground.OfStrap(j, &j.Joints[o.At.Index], laminate.Analyze(o.Schedule(j), lib), lib)
	case Seal:
		return ground.OfSeal(j, &j.Joints[o.At.Index], lib)
	case Pad:
		return ground.OfPad(&j.Nozzles[o.At.Index], laminate.Analyze(o.Schedule(j), lib), neck())
	case LaidInside, LaidOutside:
		return ground.OfNeckBond(&j.Nozzles[o.At.Index], neck(), o.Kind == LaidInside)
	case Neck:
		return ground.OfNeck(&j.Nozzles[o.At.Index])
	case Knuckle:
		return ground.OfKnuckle(&j.Parts[o.At.Index].Part, laminate.Analyze(j.Wall(o.At.Index), lib).Total.Thickness)
	case None:
	}
	return ground.Ground{}, errors.New("it is no overlay")
}

// At lists what is laid at a joint or nozzle, or on a part beside its wall, in the
// order in which it is done. Those that a job may name and does not are among them,
// but for the knuckle of a part, which few have.
func At(j *laminate.Job, at laminate.Ref) []Overlay {
	at = laminate.Ref{Kind: at.Kind, Index: at.Index}
	switch {
	case at.Kind == laminate.RefJoint && at.Index < len(j.Joints):
		x := &j.Joints[at.Index]
		of := Overlay{At: at, Of: x.ID, Part: x.Between[0], Other: x.Between[1]}
		return []Overlay{of.as(Seal, x.Inside), of.as(Strap, x.Outside)}
	case at.Kind == laminate.RefNozzle && at.Index < len(j.Nozzles):
		x := &j.Nozzles[at.Index]
		of := Overlay{At: at, Of: x.ID, Part: x.On}
		return []Overlay{of.as(Neck, x.Neck), of.as(LaidInside, x.InstallationInside), of.as(Pad, x.Pad), of.as(LaidOutside, x.InstallationOutside)}
	case at.Kind == laminate.RefJobPart && at.Index < len(j.Parts) && j.Parts[at.Index].Knuckle != "":
		of := Overlay{At: at, Part: j.Parts[at.Index].ID}
		return []Overlay{of.as(Knuckle, j.Parts[at.Index].Knuckle)}
	}
	return nil
}

func (o Overlay) as(k Kind, id string) Overlay {
	o.Kind, o.Laminate = k, id
	return o
}

// Find is the overlay that a record names: by the id of a joint or nozzle, or by a
// part alone for its knuckle. Where a joint or nozzle has but one, its kind need
// not be said.
func Find(j *laminate.Job, part, of string, kind Kind) (Overlay, error) {
	var all []Overlay
	for i := range j.Joints {
		if j.Joints[i].ID == of {
			all = append(all, At(j, laminate.Ref{Kind: laminate.RefJoint, Index: i})...)
		}
	}
	for i := range j.Nozzles {
		if j.Nozzles[i].ID == of {
			all = append(all, At(j, laminate.Ref{Kind: laminate.RefNozzle, Index: i})...)
		}
	}
	if i := j.Part(part); of == "" && i >= 0 {
		all = At(j, laminate.Ref{Kind: laminate.RefJobPart, Index: i})
	}
	if of != "" && len(all) == 0 {
		return Overlay{}, fmt.Errorf("has neither a joint nor a nozzle with the id %q (joint)", of)
	}
	all = slices.DeleteFunc(all, func(o Overlay) bool {
		return kind != None && o.Kind != kind || kind == None && o.Laminate == ""
	})
	switch {
	case len(all) == 0 && kind == None:
		return Overlay{}, fmt.Errorf("names no laminate that is laid at %s", of)
	case len(all) == 0:
		return Overlay{}, fmt.Errorf("has no overlay %s at %s (overlay)", kind, strings.TrimSpace(of+" "+part))
	case len(all) > 1:
		var words []string
		for i := range all {
			words = append(words, all[i].Kind.String())
		}
		return Overlay{}, fmt.Errorf("has several laminates at %s, and which one is not said (overlay = %s)", of, strings.Join(words, ", "))
	}
	o := all[0]
	if part != "" && part != o.Part && part != o.Other {
		return Overlay{}, fmt.Errorf("has %s on part %s, and not on %s (part)", o.Where(), o.Part, part)
	}
	if why := o.Lacks(j); why != "" {
		return Overlay{}, errors.New("cannot be used: " + why)
	}
	return o, nil
}

// All lists the overlays of a job that a laminate is named for, as they stand in
// it.
func All(j *laminate.Job) []Overlay {
	list := make([]Overlay, 0, 2*len(j.Joints)+4*len(j.Nozzles))
	add := func(kind laminate.RefKind, n int) {
		for i := range n {
			for _, o := range At(j, laminate.Ref{Kind: kind, Index: i}) {
				if o.Laminate != "" {
					list = append(list, o)
				}
			}
		}
	}
	add(laminate.RefJobPart, len(j.Parts))
	add(laminate.RefJoint, len(j.Joints))
	add(laminate.RefNozzle, len(j.Nozzles))
	return list
}

// Laid is an overlay, and the parts that it is laid onto: see [Overlay.Faces].
type Laid struct {
	Overlay
	On []int
}

// AllLaid is [All], and what each is laid onto.
func AllLaid(a *laminate.Assembly) []Laid {
	all := All(a.Job)
	list := make([]Laid, len(all))
	for i := range all {
		list[i] = Laid{all[i], all[i].faces(a.Job, a.Part)}
	}
	return list
}

// Faces are the indices of the parts whose cured faces it is laid onto: of a knuckle the
// bottom and what of the shell stands on it.
func (o *Overlay) Faces(j *laminate.Job) []int { return o.faces(j, j.Part) }

func (o *Overlay) faces(j *laminate.Job, part func(id string) int) (list []int) {
	if !o.Kind.Bonds() {
		return nil
	}
	for _, id := range []string{o.Part, o.Other} {
		if i := part(id); id != "" && i >= 0 {
			list = append(list, i)
		}
	}
	if o.Kind == Knuckle {
		list = append(list, beside(j, o.At.Index)...)
	}
	return list
}

// beside is the part of the shell that stands on another, or that the last one stands on.
func beside(j *laminate.Job, part int) []int {
	for i := part + 1; i < len(j.Parts); i++ {
		if j.Parts[i].Form.OfShell() {
			return []int{i}
		}
	}
	for i := part - 1; i >= 0; i-- {
		if j.Parts[i].Form.OfShell() {
			return []int{i}
		}
	}
	return nil
}

// Place is where in the job, as its document has it, a place of the overlay's
// schedule stands.
func (o *Overlay) Place(j *laminate.Job, at laminate.Ref) laminate.Ref {
	n := j.Laminate(o.Laminate)
	if at.Kind != laminate.RefPly || n < 0 {
		return at
	}
	at.Kind, at.Index = laminate.RefLaminatePly, laminate.RowRead(j.Laminates[n].Plies, at.Index)
	for i := range n {
		at.Index += len(laminate.JoinRow(j.Laminates[i].Plies))
	}
	return at
}
