package equipment

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
)

// assumption begins a line of notes that says what a proposal took for granted.
const assumption = "Assumed: "

// Standing are the notes of a job without the assumptions that its document has settled
// by now: of each key that they ask for, whatever it says. Of several parts or joints
// those stay for which it is not stated.
func Standing(j *laminate.Job, notes string) string {
	var lines []string
	for line := range strings.Lines(notes) {
		said, ok := strings.CutPrefix(strings.TrimSuffix(line, "\n"), assumption)
		keys := advice.Asked(said)
		whose, text, named := strings.Cut(said, ": ")
		if !ok || !named || keys == nil {
			lines = append(lines, line)
			continue
		}
		open := slices.DeleteFunc(strings.Split(whose, ", "), func(who string) bool {
			return slices.ContainsFunc(keys, func(key string) bool { return settled(j, who, key) })
		})
		if len(open) > 0 {
			lines = append(lines, strings.Replace(line, whose+": "+text, strings.Join(open, ", ")+": "+text, 1))
		}
	}
	return strings.Join(lines, "")
}

// settled tells whether the document states a key that an assumption asks for, of "part
// shell-1" or "joint J1"; of what is gone nothing is assumed any more.
func settled(j *laminate.Job, who, key string) bool {
	kind, id, _ := strings.Cut(who, " ")
	switch kind {
	case "part":
		i := j.Part(id)
		if i < 0 {
			return true
		}
		return advice.Settled(j.Wall(i), key)
	case "joint":
		i := slices.IndexFunc(j.Joints, func(x laminate.Joint) bool { return x.ID == id })
		switch {
		case i < 0:
			return true
		case key == "gap":
			return j.Joints[i].Gap.Given()
		case key == "axial_load":
			return j.Joints[i].AxialLoad.Given()
		}
	}
	return false
}
