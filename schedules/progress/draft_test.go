package progress

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
)

// The tests need a process that is killed: this test binary, told so by the
// environment.
const roleVariable = "PROGRESS_TEST_ROLE"

func TestMain(m *testing.M) {
	if os.Getenv(roleVariable) == "" {
		os.Exit(m.Run())
	}
	d, err := OpenDraft("Ada", "a1-cool-brine")
	for n := 1; err == nil; n++ {
		if err = d.Keep(practice.Answer{Hints: n, Schedule: example()}); err == nil {
			fmt.Println(n)
		}
	}
	fmt.Println(err)
	os.Exit(1)
}

func example() *laminate.Schedule {
	_, s, _ := schedules.Decode(schedules.Example(), nil)
	return s
}

// Kept is kept: kill -9 at any moment loses no answer that was said to be kept,
// and nobody else is offered it.
func TestDraft_outlivesAKill(t *testing.T) {
	home(t)
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), roleVariable+"=keep")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	last, n := 0, 0
	for last < 50 {
		if _, err := fmt.Fscanln(out, &last); err != nil {
			t.Fatalf("after %d: %v", last, err)
		}
	}
	_ = cmd.Process.Kill()
	for {
		if _, err := fmt.Fscanln(out, &n); err != nil {
			break
		}
		last = n
	}
	_ = cmd.Wait()

	if begun, err := Begun("Ada"); err != nil || !slices.Equal(begun, []string{"a1-cool-brine"}) {
		t.Errorf("begun are %v, %v", begun, err)
	}
	for _, other := range [][2]string{{"Ada", "a2-first-veil"}, {"Ben", "a1-cool-brine"}, {"", "a1-cool-brine"}} {
		d, err := OpenDraft(other[0], other[1])
		if err != nil {
			t.Fatal(err)
		}
		if _, _, ok := d.Left(); ok {
			t.Errorf("%v is offered Ada's answer", other)
		}
	}
	d, err := OpenDraft("Ada", "a1-cool-brine")
	if err != nil {
		t.Fatal(err)
	}
	a, when, ok := d.Left()
	if !ok || when.IsZero() || a.Hints < last || a.Schedule == nil || len(a.Schedule.Plies) != len(example().Plies) {
		t.Fatalf("%d were kept, left is %+v at %v, %v", last, a, when, ok)
	}
	if err := d.Forget(); err != nil {
		t.Error(err)
	}
	if begun, _ := Begun("Ada"); len(begun) > 0 {
		t.Errorf("forgotten, and still there: %v", begun)
	}
}

// An answer of every kind of exercise, right and in full, comes back as it was
// kept, and marks the same.
func TestDraft_anAnswerOfEachExerciseComesBack(t *testing.T) {
	home(t)
	lib := catalog.Library()
	list, problems := schedules.Exercises()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, e := range list {
		d, err := OpenDraft("", e.ID)
		if err != nil {
			t.Fatal(err)
		}
		want := practice.Solve(e, lib, quantity.US)
		want.Hints = min(1, len(e.Hints))
		if err := d.Keep(want); err != nil {
			t.Fatal(err)
		}
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
		again, err := OpenDraft("", e.ID)
		if err != nil {
			t.Fatal(err)
		}
		got, _, ok := again.Left()
		now := practice.Start(e).With(got).Submit(lib, quantity.US)
		m, _ := now.Mark()
		if !ok || !m.Full() || now.Answer().Hints != want.Hints {
			t.Errorf("%s: %v comes back as %+v, %+v", e.ID, want, got, m.Lines)
		}
	}
}

// What is marked is not offered again.
func TestDraft_markedIsGone(t *testing.T) {
	home(t)
	d, err := OpenDraft("Ada", "a2-first-veil")
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Keep(practice.Answer{Veil: "veil-c-15"}); err != nil {
		t.Fatal(err)
	}
	if err := d.Drop(); err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	if begun, err := Begun("Ada"); err != nil || len(begun) > 0 {
		t.Errorf("begun are %v, %v", begun, err)
	}
}
