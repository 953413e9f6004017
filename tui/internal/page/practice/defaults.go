package practice

import (
	"slices"
	"time"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/progress"
)

// Usual are the options of the program as it is opened: the exercises that
// come with it and those given, which stand for those of the same id, progress
// in the state folder, the day of the clock.
func Usual(person string, own []*exercise.Exercise, clock func() time.Time) Options {
	if clock == nil {
		clock = time.Now
	}
	return Options{
		Person: person,
		Exercises: func() ([]*exercise.Exercise, []string) {
			list, wrong := schedules.Exercises()
			list = slices.DeleteFunc(list, func(e *exercise.Exercise) bool {
				return slices.ContainsFunc(own, func(o *exercise.Exercise) bool { return o.ID == e.ID })
			})
			list = append(list, own...)
			schedules.SortExercises(list)
			var problems []string
			for i := range wrong {
				problems = append(problems, wrong[i].String())
			}
			return list, problems
		},
		Keeper: files{},
		Today:  func() practice.Day { return practice.DayOf(clock()) },
		Seed:   func() uint64 { return uint64(clock().UnixNano()) % 1_000_000 },
	}
}

// files keep progress in the state folder.
type files struct{}

func (files) People() ([]string, error)                     { return progress.People() }
func (files) Load(person string) (practice.Progress, error) { return progress.Load(person) }
func (files) Add(person string, e practice.Entry) error     { return progress.Add(person, e) }
