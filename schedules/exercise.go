package schedules

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/fields"
	"frp/veilwright/schedules/internal/tables"
)

// exerciseDocument is an exercise while it is read: what is demanded is a
// specification, which not every exercise has.
type exerciseDocument struct {
	exercise.Exercise
	demands spec.Specification
}

// The tables of an exercise. Those of what is given stand where a schedule has
// them, so that a laminate.Ref leads to them.
const (
	exerciseDemands = int(laminate.RefPly) // the tables of a specification follow, without its root
	exerciseWall    = exerciseDemands + 6
)

// exerciseSpots are the tables that [exercise.Exercise.Faults] tells of.
var exerciseSpots = [...]int{0, int(laminate.RefPly), exerciseWall, exerciseWall + 1, exerciseWall + 2, exerciseWall + 3, exerciseWall + 4, exerciseWall + 5}

var exerciseTables = sync.OnceValue(func() []tables.Table {
	list := []tables.Table{tables.One("", declared(Exercise, []tables.Field{
		tables.TextField("id", func(t *exercise.Exercise) *string { return &t.ID }),
		tables.TextField("title", func(t *exercise.Exercise) *string { return &t.Title }),
		tables.OrdinalField("step", fmt.Sprintf("the step of the course, 1 to %d", exercise.Steps), exercise.Steps, func(t *exercise.Exercise) *int { return &t.Step }),
		tables.WordField("kind", func(t *exercise.Exercise) *exercise.Kind { return &t.Kind }, exercise.Kinds),
		tables.NotesField("scenario", func(t *exercise.Exercise) *string { return &t.Scenario }),
		tables.NotesField("task", func(t *exercise.Exercise) *string { return &t.Task }),
		tables.FlagField("keep_structure", func(t *exercise.Exercise) *bool { return &t.KeepStructure }),
		tables.WordField("overlay", func(t *exercise.Exercise) *overlay.Kind { return &t.Overlay }, overlay.Kinds),
		tables.UnitsField("units", "us or si: what screens show", func(t *exercise.Exercise) (*quantity.System, *bool) { return &t.Given.Units, &t.Given.UnitsSet }),
	}...), func(d *exerciseDocument) *exercise.Exercise { return &d.Exercise })}
	for _, t := range scheduleTables[1:] {
		list = append(list, tables.Within(t, func(d *exerciseDocument) *laminate.Schedule { return &d.Given }))
	}
	for _, t := range specDemands() { // nothing is read off a wall that only stands on paper
		list = append(list, tables.Within(t, func(d *exerciseDocument) *spec.Specification { return &d.demands }))
	}
	return append(list,
		tables.Many("wall", laminate.MostRows, plyFields, func(d *exerciseDocument) *[]laminate.Ply { return &d.Wall }),
		tables.One("joint", fields.Joint(), func(d *exerciseDocument) *laminate.Joint { return &d.Joint }),
		tables.One("nozzle", slices.DeleteFunc(fields.Nozzle(), func(f tables.Field) bool { return slices.Contains(exercise.NozzleNames, f.Key) }), func(d *exerciseDocument) *laminate.Nozzle { return &d.Nozzle }),
		tables.Many("question", exercise.MostQuestions, []tables.Field{
			tables.WordField("ask", func(q *exercise.Question) *exercise.Ask { return &q.Ask }, exercise.Asks),
			tables.ShareField("tolerance", func(q *exercise.Question) *laminate.Optional[float64] { return &q.Tolerance }),
		}, func(d *exerciseDocument) *[]exercise.Question { return &d.Questions }),
		tables.Many("specimen", exercise.MostSpecimens, []tables.Field{
			groupField("zone", "total (the whole wall), barrier, or a zone: the plies that the specimen holds", func(s *exercise.Specimen) *inspection.Group { return &s.Group }),
			tables.SizeField("before", func(s *exercise.Specimen) *quantity.Mass { return &s.Before }),
			tables.SizeField("after", func(s *exercise.Specimen) *quantity.Mass { return &s.After }),
		}, func(d *exerciseDocument) *[]exercise.Specimen { return &d.Specimens }),
		tables.Many("hint", exercise.MostHints, []tables.Field{
			tables.NotesField("text", func(h *exercise.Hint) *string { return &h.Text }),
			tables.ShareField("cost", func(h *exercise.Hint) *laminate.Optional[float64] { return &h.Cost }),
		}, func(d *exerciseDocument) *[]exercise.Hint { return &d.Hints }))
})

// ExerciseKeys lists the tables and keys of an exercise in canonical order.
func ExerciseKeys() []TableKeys { return keysOf(exerciseTables()) }

// DecodeExercise reads an exercise. Where there are problems it is nil; all of
// them are told, in the order of the file.
func DecodeExercise(b []byte) (*exercise.Exercise, []Problem) {
	d := new(exerciseDocument)
	src, problems := read(b, Exercise, exerciseTables(), d)
	if src.doc == nil {
		return nil, problems
	}
	for _, f := range laminate.Validate(&d.Given, nil) {
		if f.Ref.Kind != laminate.RefSchedule || f.Ref.Key == "ply" {
			problems = src.fault(problems, spotOf(f.Ref), f.Message)
		}
	}
	problems = src.demands(problems, &d.demands, exerciseDemands)
	d.Demands = d.demands
	for _, f := range d.Faults() {
		problems = src.fault(problems, tables.Spot{Table: exerciseSpots[f.Table], Row: f.Row, Key: f.Key}, f.Message)
	}
	problems = src.doc.Strange(problems, d)
	if len(problems) > 0 {
		return nil, tables.Sorted(problems)
	}
	d.Given.Title, d.Given.Part.Place.Lined = d.Title, d.Overlay.Inside()
	d.Given.Plies = laminate.SplitRow(&d.Given, catalog.Library())
	return &d.Exercise, nil
}

//go:embed exercises/*.toml
var exerciseFiles embed.FS

// Exercises reads the exercises that come with the program, by step and id. A
// problem is a fault of the program, which its tests would have shown.
func Exercises() ([]*exercise.Exercise, []Problem) {
	names, err := fs.Glob(exerciseFiles, "exercises/*.toml")
	if err != nil {
		return nil, []Problem{{Message: tables.Printable(err.Error())}}
	}
	var list []*exercise.Exercise
	var problems []Problem
	for _, name := range names {
		b, err := exerciseFiles.ReadFile(name)
		if err != nil {
			problems = append(problems, Problem{Message: tables.Printable(err.Error())})
			continue
		}
		e, wrong := DecodeExercise(b)
		for _, p := range wrong {
			p.Message += " (" + name + ")"
			problems = append(problems, p)
		}
		if e != nil {
			list = append(list, e)
		}
	}
	SortExercises(list)
	return list, problems
}

// SortExercises puts exercises in the order of the course: by step, then id.
func SortExercises(list []*exercise.Exercise) {
	slices.SortStableFunc(list, exercise.Compare)
}
