package course_test

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
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

// The lesson on joints has no figure of its own: each is the one that rules go by.
func TestCourse_figuresOfJointsAreThoseOfTheRules(t *testing.T) {
	text := strings.Join(strings.Fields(course.At(exercise.Steps).Text), " ")
	for _, want := range []string{
		"Under " + quantity.US.Figure(catalog.LeastReach.SI(), quantity.Size) + " inside diameter",
		fmt.Sprintf("less than %v hours", catalog.UsualBondWindow.Hours()),
		fmt.Sprintf("at %v to 1", joining.TaperRatio),
	} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if d := 0.6; joining.PadDiameter(d) != 2*d || !strings.Contains(text, "at least twice as wide as the opening") {
		t.Errorf("a pad over %v m is %v m wide", d, joining.PadDiameter(d))
	}
	for _, says := range []string{"promoter", "dust", "Styrene vapor is heavier", "static", "entry permit", "spark"} {
		if !strings.Contains(text, says) {
			t.Errorf("it does not warn of %s", says)
		}
	}
}
