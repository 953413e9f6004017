package cli

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/course"
	"frp/veilwright/rules/practice/maker"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/progress"
	"frp/veilwright/schedules/store"
)

type practiceCommand struct {
	ID string `arg:"" optional:"" name:"exercise" help:"The exercise to print or mark, by its id." complete:"exercises"`

	List     bool   `help:"List the exercises." xor:"what"`
	Summary  bool   `help:"Print a person's progress in each exercise." xor:"what"`
	Next     bool   `help:"Print the next exercise for a person." xor:"what"`
	Course   int    `placeholder:"STEP" help:"Print the lesson of a step, 1 to 6." xor:"what"`
	Glossary bool   `help:"Print the words of the trade and their sources." xor:"what"`
	Seed     uint64 `placeholder:"N" help:"Make an exercise from this number, 1 or higher." xor:"what"`
	Step     int    `placeholder:"1-6" help:"The step to make an exercise of, or to list only."`

	CSV    bool   `name:"csv" help:"Print the summary as CSV."`
	Person string `placeholder:"NAME" default:"me" help:"Whose progress."`
	Folder string `placeholder:"FOLDER" help:"A folder of the shop's own exercises, in addition to the built-in ones."`
	Answer bool   `help:"Print the computed answer too."`
	Hints  int    `placeholder:"N" help:"Print this many hints; they cost points when the answer is marked."`

	Mark   string   `placeholder:"FILE" help:"Mark this schedule as the answer."`
	Fault  []int    `placeholder:"PLY" help:"The defective plies of the given schedule."`
	Veil   string   `placeholder:"ID" help:"The veil chosen." complete:"materials"`
	Resin  string   `placeholder:"FAMILY" help:"The resin family chosen."`
	Tell   []string `placeholder:"ANSWER" sep:"none" help:"An answer to a question; once for each, in order."`
	Record bool     `help:"Keep the mark in the person's progress."`
}

// Help is shown under the command's flags.
func (practiceCommand) Help() string {
	return `Opens the terminal program at the practice page, unless an option asks to print, mark or summarize. Exercises in six steps, from why a veil to straps, seals and openings. They are marked by the rules that check runs, line by line, with the reason for every miss.

    veilwright practice
    veilwright practice --list
    veilwright practice --course 1
    veilwright practice --next --person Ana
    veilwright practice a3-etch-rinse --veil veil-c-15 --resin vinyl-ester
    veilwright practice a6-one-and-two --tell "113 mil" --tell "25 %" --tell clear --record --person Ana
    veilwright practice a7-lamp-rinse --mark mine.toml
    veilwright practice --seed 7 --step 4 --answer
    veilwright practice --summary --csv --person Ana

Exit code of a marked answer: 0 when nothing was missed, else 1.`
}

// Run prints or marks what the call asks for.
func (k practiceCommand) Run(c *call) error {
	if k.CSV && (c.JSON || !k.Summary) {
		return errors.New("--csv is a form of --summary, without --json")
	}
	if k.Course < 0 || k.Course > exercise.Steps || k.Step < 0 || k.Step > exercise.Steps {
		return fmt.Errorf("the course has steps 1 to %d", exercise.Steps)
	}
	switch {
	case k.Course > 0:
		l := course.At(k.Course)
		return c.either(report.LessonOf(l), paper.Lesson(l))
	case k.Glossary:
		return c.either(report.Glossary(), paper.Glossary())
	}
	list, err := k.exercises(c)
	if err != nil {
		return err
	}
	if k.Step > 0 && (k.List || k.Summary || k.Next) {
		list = slices.DeleteFunc(list, func(e *exercise.Exercise) bool { return e.Step != k.Step })
	}
	switch {
	case k.List:
		return c.either(report.ExercisesOf(list), paper.Exercises(list))
	case k.Summary:
		return k.summary(c, list)
	case k.ID == "" && !k.Next && k.Seed == 0 && !c.JSON && !k.answered() && !k.Record:
		return k.open(c)
	}
	lib, err := c.library()
	if err != nil {
		return err
	}
	e, err := k.exercise(list, lib)
	if err != nil {
		return err
	}
	return k.one(c, e, lib)
}

// exercises are the built-in ones and those of the shop's folder; one of the
// folder stands for a built-in one of the same id.
func (k practiceCommand) exercises(c *call) ([]*exercise.Exercise, error) {
	list, problems := schedules.Exercises()
	if len(problems) > 0 {
		return nil, fmt.Errorf("reading the built-in exercises: %s", problems[0])
	}
	if k.Folder == "" {
		return list, nil
	}
	own, err := c.ownExercises(k.Folder)
	if err != nil {
		return nil, err
	}
	list = slices.DeleteFunc(list, func(e *exercise.Exercise) bool {
		return slices.ContainsFunc(own, func(o *exercise.Exercise) bool { return o.ID == e.ID })
	})
	list = append(list, own...)
	schedules.SortExercises(list)
	return list, nil
}

// ownExercises reads the exercises of a folder; what cannot be read is said and
// left out.
func (c *call) ownExercises(folder string) ([]*exercise.Exercise, error) {
	paths, err := store.List(folder)
	if err != nil && len(paths) == 0 {
		return nil, err
	}
	for _, e := range parts(err) {
		if e != nil {
			c.say.Say("%v", e)
			c.ends(Unusable)
		}
	}
	var own []*exercise.Exercise
	where := map[string]string{}
	for _, path := range paths {
		d := c.books().Read(path)
		if d.Err == nil && d.Kind != schedules.Exercise && d.Kind != schedules.Unreadable {
			continue
		}
		e := d.Exercise
		switch {
		case !d.Usable():
			c.unread(d)
		case where[e.ID] != "":
			c.say.Say("%s: the id %q is already taken by %s; skipped", path, e.ID, where[e.ID])
			c.ends(Unusable)
		default:
			where[e.ID] = path
			own = append(own, e)
		}
	}
	if len(own) == 0 {
		c.say.Say("%s: no exercises in this folder", folder)
	}
	return own, nil
}

// exercise finds the one that is meant.
func (k practiceCommand) exercise(list []*exercise.Exercise, lib *laminate.Library) (*exercise.Exercise, error) {
	switch {
	case k.ID != "" && (k.Seed > 0 || k.Next):
		return nil, errors.New("name an exercise by its id, --seed or --next, only one of them")
	case k.Seed > 0:
		return maker.Generate(k.Seed, max(1, k.Step), lib), nil
	case k.Next:
		done, err := progress.Load(k.Person)
		if err != nil {
			return nil, err
		}
		if e := practice.Next(done, list, practice.DayOf(time.Now())); e != nil {
			return e, nil
		}
		return nil, errors.New("no exercise of this step")
	case k.ID == "":
		return nil, errors.New("say what to print: an exercise, --list, --next, --seed, --summary, --course or --glossary; see veilwright practice --help")
	}
	var ids []string
	for _, e := range list {
		if e.ID == k.ID {
			return e, nil
		}
		ids = append(ids, e.ID)
	}
	return nil, fmt.Errorf("there is no exercise %q%s; veilwright practice --list names them", k.ID, didYouMean(k.ID, ids))
}

// one prints an exercise, and marks what was answered.
func (k practiceCommand) one(c *call, e *exercise.Exercise, lib *laminate.Library) error {
	units := c.units(&e.Given)
	if k.Hints < 0 || k.Hints > len(e.Hints) {
		return fmt.Errorf("%s has %d hints", e.ID, len(e.Hints))
	}
	if !k.answered() {
		if k.Record {
			return errors.New("--record keeps a mark: give an answer with it")
		}
		sheet := paper.Exercise(e, k.Hints, lib, units)
		if k.Answer {
			sheet = append(sheet, paper.Answer(e, practice.Solve(e, lib, units), lib)...)
		}
		return c.either(report.ExerciseOf(e, k.Hints, k.Answer, lib, units), sheet)
	}
	a, err := k.answer(c, e, units)
	if err != nil {
		return err
	}
	m := practice.Grade(e, a, lib, units)
	if !m.Full() {
		c.ends(Broken)
	}
	if k.Record {
		entry := practice.Entry{Day: practice.DayOf(time.Now()), Exercise: e.ID, Step: e.Step, Score: m.Score, Hints: k.Hints}
		if err := progress.Add(k.Person, entry); err != nil {
			return fmt.Errorf("keeping the mark: %w", err)
		}
	}
	sheet := paper.Mark(e, &m)
	if k.Answer {
		sheet = append(sheet, paper.Answer(e, m.Solution, lib)...)
	}
	return c.either(report.MarkOf(e, &m, k.Answer, lib), sheet)
}

// answered tells whether the call gives an answer.
func (k practiceCommand) answered() bool {
	return k.Mark != "" || len(k.Fault) > 0 || k.Veil != "" || k.Resin != "" || len(k.Tell) > 0
}

// answer takes the answer from the flags, those of the exercise's kind alone.
func (k practiceCommand) answer(c *call, e *exercise.Exercise, units quantity.System) (practice.Answer, error) {
	a := practice.Answer{Hints: k.Hints, Faults: k.Fault, Veil: k.Veil, Values: k.Tell}
	if len(k.Fault) > 0 && e.Kind == exercise.Fix && !e.NamesPlies() {
		return a, fmt.Errorf("--fault names plies of a wall; what %s is about is put right as a whole, and --mark gives it", e.ID)
	}
	for _, f := range []struct {
		flag        string
		given, fits bool
	}{
		{"--mark", k.Mark != "", e.Kind.Builds()},
		{"--fault", len(k.Fault) > 0, e.Kind == exercise.Fix},
		{"--veil", k.Veil != "", e.Kind == exercise.Choose},
		{"--resin", k.Resin != "", e.Kind == exercise.Choose},
		{"--tell", len(k.Tell) > 0, e.Kind.Asks()},
	} {
		if f.given && !f.fits {
			return a, fmt.Errorf("%s does not answer an exercise of kind %s, which %s is", f.flag, e.Kind, e.ID)
		}
	}
	if len(k.Tell) > len(e.Questions) {
		return a, fmt.Errorf("%s asks %d questions; %d answers given", e.ID, len(e.Questions), len(k.Tell))
	}
	for i, text := range k.Tell {
		if _, _, err := practice.ReadValue(e.Questions[i], text, units); err != nil {
			return a, fmt.Errorf("answer %d: %w", i+1, err)
		}
	}
	if k.Resin != "" {
		var ok bool
		if a.Family, ok = laminate.Families.Parse(k.Resin); !ok {
			return a, fmt.Errorf("there is no resin family %q%s", k.Resin, didYouMean(k.Resin, familyWords()))
		}
	}
	if k.Mark == "" {
		return a, nil
	}
	d := c.named(k.Mark, "practice", schedules.Schedule)
	if len(e.Given.Materials) > 0 && d.Library != nil { // what the exercise gives need not be defined again
		d.Library = catalog.Merge(d.Library, catalog.Book{Materials: e.Given.Materials})
		d = d.With(d.Text)
	}
	if !d.Usable() {
		return a, fmt.Errorf("%s cannot be marked: %s", k.Mark, d.Why())
	}
	a.Schedule = d.Schedule
	return a, nil
}

// exerciseIDs are the built-in ones: completion reads no folder.
func exerciseIDs() []string {
	list, _ := schedules.Exercises()
	var ids []string
	for _, e := range list {
		ids = append(ids, e.ID)
	}
	return ids
}

func familyWords() []string {
	var words []string
	for _, f := range laminate.Families.All() {
		words = append(words, f.String())
	}
	return words
}

func (k practiceCommand) summary(c *call, list []*exercise.Exercise) error {
	done, err := progress.Load(k.Person)
	for _, e := range parts(err) {
		if e != nil {
			c.say.Say("%v", e)
			c.ends(Unusable)
		}
	}
	rows := practice.Summary(done, list)
	if k.Step > 0 {
		rows = slices.DeleteFunc(rows, func(r practice.Row) bool { return r.Step != k.Step })
	}
	if k.CSV {
		return practice.WriteCSV(c.out, k.Person, rows)
	}
	return c.either(report.SummaryOf(k.Person, rows), paper.Progress(rows))
}
