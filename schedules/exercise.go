package schedules

import (
	"cmp"
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/internal/keyed"
)

type (
	task     = exercise.Exercise
	question = exercise.Question
	specimen = exercise.Specimen
	clue     = exercise.Hint
)

// exerciseDocument is an exercise while it is read: what is given stands in
// the tables of a schedule, what is demanded in those of a specification.
type exerciseDocument struct {
	task
	demands specDocument
}

// The tables of an exercise. Those of what is given stand where a schedule has
// them, so that a laminate.Ref leads to them.
const (
	exerciseDemands  = int(laminate.RefPly) // the tables of a specification follow, without its root
	exerciseQuestion = exerciseDemands + 6
	exerciseSpecimen = exerciseQuestion + 1
	exerciseHint     = exerciseQuestion + 2
)

func exerciseTables() []keyed.Table {
	tables := []keyed.Table{{Fields: taskFields, At: func(m any, _ int) any { return &m.(*exerciseDocument).task }, Rows: keyed.OneRow, Resize: keyed.Fixed}}
	for _, t := range scheduleTables[1:] {
		tables = append(tables, within(t, func(d *exerciseDocument) any { return &d.Given }))
	}
	for _, t := range specTables[1:] {
		if t.Name != "inspection" { // nothing is read off a wall that only stands on paper
			tables = append(tables, within(t, func(d *exerciseDocument) any { return &d.demands }))
		}
	}
	return append(tables,
		taskTable("question", exercise.MostQuestions, questionFields, func(d *exerciseDocument) *[]question { return &d.Questions }),
		taskTable("specimen", exercise.MostSpecimens, specimenFields, func(d *exerciseDocument) *[]specimen { return &d.Specimens }),
		taskTable("hint", exercise.MostHints, hintFields, func(d *exerciseDocument) *[]clue { return &d.Hints }))
}

// within makes a table of another document one of this.
func within(t keyed.Table, inner func(*exerciseDocument) any) keyed.Table {
	at, rows, resize := t.At, t.Rows, t.Resize
	t.At = func(m any, i int) any { return at(inner(m.(*exerciseDocument)), i) }
	t.Rows = func(m any) int { return rows(inner(m.(*exerciseDocument))) }
	t.Resize = func(m any, n int) { resize(inner(m.(*exerciseDocument)), n) }
	return t
}

func taskTable[T any](title string, most int, fields []keyed.Field, list func(*exerciseDocument) *[]T) keyed.Table {
	return keyed.Table{Name: title, Array: true, Most: most, Fields: fields,
		At:     func(m any, i int) any { return &(*list(m.(*exerciseDocument)))[i] },
		Rows:   func(m any) int { return len(*list(m.(*exerciseDocument))) },
		Resize: func(m any, n int) { *list(m.(*exerciseDocument)) = make([]T, n) }}
}

var taskFields = []keyed.Field{
	keyed.Declaration("document", `"exercise"`, `"exercise"`),
	keyed.Declaration("format", "1", "1"),
	keyed.TextField("id", func(t *task) *string { return &t.ID }),
	keyed.TextField("title", func(t *task) *string { return &t.Title }),
	{Key: "step", What: fmt.Sprintf("the step of the course, 1 to %d", exercise.Steps),
		Set: func(row, value any) string {
			n, wrong := keyed.Whole(value)
			if wrong == "" && (n < 1 || n > exercise.Steps) {
				wrong = fmt.Sprintf("%d is not between 1 and %d", n, exercise.Steps)
			}
			row.(*task).Step = n
			return wrong
		},
		Get: func(row any) (string, bool) { return fmt.Sprint(row.(*task).Step), true }},
	keyed.WordField("kind", func(t *task) *exercise.Kind { return &t.Kind }, exercise.Kinds),
	keyed.NotesField("scenario", func(t *task) *string { return &t.Scenario }),
	keyed.NotesField("task", func(t *task) *string { return &t.Task }),
	keyed.FlagField("keep_structure", func(t *task) *bool { return &t.KeepStructure }),
	{Key: "units", What: "us or si: what screens show",
		Set: func(row, value any) string {
			s, _ := value.(string)
			u, ok := quantity.ParseSystem(s)
			if !ok {
				return "us or si is expected, not " + keyed.KindOf(value)
			}
			row.(*task).Given.Units, row.(*task).Given.UnitsSet = u, true
			return ""
		},
		Get: func(row any) (string, bool) {
			d := &row.(*task).Given
			return keyed.TOMLText(d.Units.String()), d.UnitsSet
		}},
}

var questionFields = []keyed.Field{
	keyed.WordField("ask", func(q *question) *exercise.Ask { return &q.Ask }, exercise.Asks),
	keyed.ShareField("tolerance", func(q *question) *laminate.Optional[float64] { return &q.Tolerance }),
}

var specimenFields = []keyed.Field{
	{Key: "zone", What: "total (the whole wall), barrier, or a zone: the plies that the specimen holds",
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "a word is expected, not " + keyed.KindOf(value)
			}
			g, ok := record.Groups.Parse(s)
			if !ok {
				return keyed.WrongWord(s, record.Groups.Words())
			}
			row.(*specimen).Group = g
			return ""
		},
		Get: func(row any) (string, bool) {
			g := row.(*specimen).Group
			return keyed.TOMLText(g.String()), g != record.WholeWall
		}},
	keyed.SizeField("before", func(s *specimen) *quantity.Mass { return &s.Before }),
	keyed.SizeField("after", func(s *specimen) *quantity.Mass { return &s.After }),
}

var hintFields = []keyed.Field{
	keyed.NotesField("text", func(h *clue) *string { return &h.Text }),
	keyed.ShareField("cost", func(h *clue) *laminate.Optional[float64] { return &h.Cost }),
}

// ExerciseKeys lists the tables and keys of an exercise in canonical order.
func ExerciseKeys() []TableKeys { return keysOf(exerciseTables()) }

// DecodeExercise reads an exercise. Where there are problems it is nil; all of
// them are told, in the order of the file.
func DecodeExercise(b []byte) (*exercise.Exercise, []Problem) {
	d := new(exerciseDocument)
	tables := exerciseTables()
	src, problems := read(b, Exercise, tables, d)
	if src.doc == nil {
		return nil, problems
	}
	for _, f := range laminate.Validate(&d.Given, nil) {
		if f.Ref.Kind != laminate.RefSchedule || f.Ref.Key == "ply" {
			problems = src.fault(problems, tables, spotOf(f.Ref), f.Message)
		}
	}
	d.demands.OuterSurface, d.demands.Total = d.demands.outer.required, d.demands.total.thickness
	problems = append(problems, src.demands(&d.demands, tables, exerciseDemands)...)
	for _, w := range taskFaults(&d.task, &d.demands) {
		problems = src.fault(problems, tables, w.At, w.message)
	}
	if len(problems) > 0 {
		return nil, keyed.Sorted(problems)
	}
	d.Demands = d.demands.demand
	d.Given.Title = d.Title
	return &d.task, nil
}

type misplaced struct {
	At      keyed.Spot
	message string
}

// taskFaults tells what an exercise lacks for its kind, and what it could not
// be answered with.
func taskFaults(t *task, d *specDocument) []misplaced {
	var all []misplaced
	fail := func(table, row int, key, format string, args ...any) {
		all = append(all, misplaced{keyed.Spot{Table: table, Row: row, Key: key}, fmt.Sprintf(format, args...)})
	}
	need := func(text, key string) {
		if strings.TrimSpace(text) == "" {
			fail(0, 0, key, "it is missing; an exercise needs it")
		}
		if r, bad := laminate.BadCharacter(text, key == "scenario" || key == "task"); bad {
			fail(0, 0, key, "%s", badCharacter(r))
		}
	}
	need(t.ID, "id")
	if strings.Trim(t.ID, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || len(t.ID) > 60 {
		fail(0, 0, "id", "lower-case letters, digits and hyphens are expected, at most 60")
	}
	need(t.Title, "title")
	need(t.Scenario, "scenario")
	need(t.Task, "task")
	if t.Step == 0 {
		fail(0, 0, "step", "it is missing; an exercise needs it")
	}
	if t.Kind == exercise.NoKind {
		fail(0, 0, "kind", "it is missing; an exercise needs it")
		return all
	}
	ply, kind := int(laminate.RefPly), t.Kind.String()
	if len(t.Given.Plies) == 0 && t.Kind != exercise.Choose {
		fail(0, 0, "kind", "there is no [[ply]]; an exercise of the kind %s needs what is given", kind)
	}
	if t.Kind == exercise.Order && len(t.Given.Plies) > exercise.MostOrdered {
		fail(ply, exercise.MostOrdered, "", "at most %d [[ply]] tables can be put in order", exercise.MostOrdered)
	}
	if t.Kind.Asks() != (len(t.Questions) > 0) {
		fail(exerciseQuestion, 0, "", "[[question]] tables belong to exercises of the kinds predict and ignition, and those need them")
	}
	if (t.Kind == exercise.Ignition) != (len(t.Specimens) > 0) {
		fail(exerciseSpecimen, 0, "", "[[specimen]] tables belong to exercises of the kind ignition, and those need them")
	}
	for i, q := range t.Questions {
		switch {
		case q.Ask == exercise.NoAsk:
			fail(exerciseQuestion, i, "ask", "it is missing")
		case q.Ask.OfSpecimens() && t.Kind != exercise.Ignition:
			fail(exerciseQuestion, i, "ask", "%q asks about specimens, which belong to an ignition test", q.Ask)
		case q.Ask == exercise.Acceptance && !d.Barrier.GlassContent.Given && !d.Structure.GlassContent.Given:
			fail(exerciseQuestion, i, "ask", "nothing is accepted or rejected without a demanded glass_content")
		case q.Ask.Answer() == exercise.Word && q.Tolerance.Given:
			fail(exerciseQuestion, i, "tolerance", "a word has none")
		}
		if q.Tolerance.Given && !(q.Tolerance.Value >= 0 && q.Tolerance.Value <= 0.5) {
			fail(exerciseQuestion, i, "tolerance", "it is not between 0 and 0.5")
		}
	}
	for i, s := range t.Specimens {
		switch {
		case !s.Before.Given() || s.Before.SI() <= 0 || s.Before.SI() > 10:
			fail(exerciseSpecimen, i, "before", "a mass above 0 and at most 10 kg is needed")
		case !s.After.Given() || s.After.SI() < 0 || s.After.SI() > s.Before.SI():
			fail(exerciseSpecimen, i, "after", "a mass from 0 to that before the test is needed")
		case s.Group != t.Specimens[0].Group:
			fail(exerciseSpecimen, i, "zone", "all specimens hold the same plies")
		}
	}
	for i, h := range t.Hints {
		if strings.TrimSpace(h.Text) == "" {
			fail(exerciseHint, i, "text", "it is missing")
		}
		if r, bad := laminate.BadCharacter(h.Text, true); bad {
			fail(exerciseHint, i, "text", "%s", badCharacter(r))
		}
		if h.Cost.Given && !(h.Cost.Value >= 0 && h.Cost.Value <= 1) {
			fail(exerciseHint, i, "cost", "it is a share from 0 to 1")
		}
	}
	return all
}

//go:embed exercises/*.toml
var exerciseFiles embed.FS

// Exercises reads the exercises that come with the program, by step and id. A
// problem is a fault of the program, which its tests would have shown.
func Exercises() ([]*exercise.Exercise, []Problem) {
	names, err := fs.Glob(exerciseFiles, "exercises/*.toml")
	if err != nil {
		return nil, []Problem{{Message: keyed.Printable(err.Error())}}
	}
	var list []*exercise.Exercise
	var problems []Problem
	for _, name := range names {
		b, err := exerciseFiles.ReadFile(name)
		if err != nil {
			problems = append(problems, Problem{Message: keyed.Printable(err.Error())})
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
	slices.SortStableFunc(list, func(a, b *exercise.Exercise) int {
		return cmp.Or(cmp.Compare(a.Step, b.Step), cmp.Compare(a.ID, b.ID))
	})
}
