package exercise

import "frp/veilwright/laminate/word"

// Kind is what has to be done.
type Kind uint8

// The kinds.
const (
	NoKind   Kind = iota
	Build         // lay a barrier on the structure that is given
	Choose        // name a veil and a resin family
	Fix           // name the plies at fault, of a wall, and put the schedule right
	Predict       // tell figures before the program shows them
	Order         // put the plies in order
	Ignition      // read an ignition test
)

// Kinds are the words of the kinds.
var Kinds = word.Of[Kind]("", "build", "choose", "fix", "predict", "order", "ignition")

func (k Kind) String() string { return Kinds.Name(k) }

// Asks tells whether exercises of the kind are answered by figures and words.
func (k Kind) Asks() bool { return k == Predict || k == Ignition }

// Builds tells whether exercises of the kind are answered by a schedule.
func (k Kind) Builds() bool { return k == Build || k == Fix || k == Order }

// Ask is what a question asks for.
type Ask uint8

// What may be asked.
const (
	NoAsk Ask = iota
	BarrierThickness
	StructureThickness
	WallThickness
	BarrierGlass // glass share by mass
	StructureGlass
	WallGlass
	Verdict    // of the rules: clear, warning, incomplete or break
	Loss       // ignition loss, mean of the specimens
	GlassLeft  // glass share by mass that the specimens had, filler and organic veil accounted for
	Acceptance // accept or reject against the required glass content
	Worst      // what the rules find that is worst
)

// Asks are the words of what may be asked.
var Asks = word.Of[Ask]("", "barrier-thickness", "structure-thickness", "wall-thickness", "barrier-glass", "structure-glass", "wall-glass",
	"verdict", "loss", "glass-left", "acceptance", "worst")

func (a Ask) String() string { return Asks.Name(a) }

// OfSpecimens tells whether the question is about an ignition test.
func (a Ask) OfSpecimens() bool { return a == Loss || a == GlassLeft || a == Acceptance }

// AnswerKind is what kind of value answers a question.
type AnswerKind uint8

// The kinds of answers.
const (
	Word AnswerKind = iota
	Thickness
	Content
)

// Answer is the kind of value that answers it.
func (a Ask) Answer() AnswerKind {
	switch a {
	case BarrierThickness, StructureThickness, WallThickness:
		return Thickness
	case BarrierGlass, StructureGlass, WallGlass, Loss, GlassLeft:
		return Content
	default: // nothing of the others
	}
	return Word
}

// The words that answer what is worst; which rules find it is not said here.
const (
	NothingWrong   = "nothing"
	VeilBuried     = "veil buried"
	WaxBetween     = "wax between"
	NoBondMat      = "no bond mat"
	TooThin        = "too thin"
	AnotherBarrier = "another barrier"
	WovenMisplaced = "woven misplaced" // on woven roving, or last
	TooMuchAtOnce  = "too much at once"
	EdgeOpen       = "edge open"
)

// Words lists the words that may answer it, nil where a figure does.
func (a Ask) Words() []string {
	switch a {
	case Verdict:
		return []string{"clear", "warning", "incomplete", "break"}
	case Acceptance:
		return []string{"accept", "reject"}
	case Worst:
		return []string{NothingWrong, VeilBuried, WaxBetween, NoBondMat, TooThin, AnotherBarrier, WovenMisplaced, TooMuchAtOnce, EdgeOpen}
	default: // nothing of the others
	}
	return nil
}

// Text is the question in words.
func (a Ask) Text() string {
	switch a {
	case BarrierThickness:
		return "how thick is the barrier"
	case StructureThickness:
		return "how thick is the structural layer"
	case WallThickness:
		return "how thick is the whole wall"
	case BarrierGlass:
		return "how much of the barrier's mass is glass"
	case StructureGlass:
		return "how much of the structural layer's mass is glass"
	case WallGlass:
		return "how much of the wall's mass is glass"
	case Verdict:
		return "what is the verdict: clear, warning, incomplete or break"
	case Loss:
		return "what is the mean ignition loss"
	case GlassLeft:
		return "what glass content does the test prove"
	case Acceptance:
		return "accept or reject against the required glass content"
	case Worst:
		return "what is the worst of it"
	default: // nothing of the others
	}
	return ""
}
