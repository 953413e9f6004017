package course_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice/course"
)

func TestCourse_hasALessonForEachStep(t *testing.T) {
	lib := catalog.Library()
	for step := 1; step <= exercise.Steps; step++ {
		l := course.At(step)
		if l.Title == "" || len(l.Text) < 500 || l.Picture == nil || l.Picture.NumberOfPlies() == 0 {
			t.Errorf("step %d: %+v", step, l)
		}
		for _, line := range strings.Split(l.Text, "\n") {
			if len([]rune(line)) > 76 {
				t.Errorf("step %d: %q is too wide for 80 columns", step, line)
			}
		}
		for _, p := range l.Picture.Plies {
			if _, ok := lib.Material(nil, p.Material); !ok {
				t.Errorf("step %d draws %q", step, p.Material)
			}
		}
	}
}
