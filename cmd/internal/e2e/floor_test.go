//go:build unix

package e2e

import (
	"os"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// floorTask is what a task of the table in DEVELOPERS.md begins with and what
// the screen shows when it is done. Most is the number of keys that it may take.
type floorTask struct {
	most  int
	open  []string // the call
	begin func(t *testing.T, h home)
	first []string // keys typed before those that are counted
	see   []string
}

func floorTasks() map[string]floorTask {
	example := func(t *testing.T, h home) { h.example(t, "a.toml") }
	a := []string{"a.toml"}
	coupon := func(t *testing.T, h home) {
		h.write(t, "coupon.toml", soundCoupon)
		h.write(t, "demands.toml", soundDemands)
	}
	return map[string]floorTask{
		"a wall from an empty schedule": {9, []string{"fresh.toml"}, nil, nil, []string{"gel stop", "ply 8"}},
		"a wall from a bare start":      {25, nil, nil, nil, []string{"BENCH", "u undoes it", "gel stop"}},
		"an existing schedule":          {3, nil, kept, nil, []string{"BENCH", "Sound coupon"}},
		"double barrier":                {3, a, example, nil, []string{"mat-1.5 ×4"}},
		"swap the veil everywhere":      {4, a, example, nil, []string{"veil-polyester-15"}},
		"why":                           {1, a, example, nil, []string{"finding ", "b goes back"}},
		"fix":                           {1, a, example, nil, []string{"u undoes it"}},
		"undo":                          {1, a, example, []string{"9"}, []string{"undid"}},
		"redo":                          {1, a, example, []string{"9", "u"}, []string{"did again"}},
		"units":                         {1, a, example, nil, []string{"figures in mm"}},
		"save":                          {1, a, example, []string{"9"}, []string{"saved a.toml"}},
		"reopen after a crash":          {1, a, killed, nil, []string{"took up the unsaved work"}},
		"compare with a specification":  {3, []string{"coupon.toml"}, coupon, nil, []string{"against Sound coupons"}},
		"a paper":                       {1, []string{"coupon.toml"}, coupon, nil, []string{"wrote coupon-laminate-schedule.pdf"}},
		"the page to lay up on":         {2, []string{"coupon.toml"}, coupon, nil, []string{"LAY PLY 1 of 5"}},
	}
}

// killed leaves unsaved work on a.toml.
func killed(t *testing.T, h home) {
	h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	s.see("BENCH")
	s.press("9").see("added")
	h.journalled(t, "topcoat")
	s.signal(syscall.SIGKILL)
	s.end()
}

// kept has opened a schedule before.
func kept(t *testing.T, h home) {
	h.write(t, "coupon.toml", soundCoupon)
	s := h.open(t, "coupon.toml")
	s.see("BENCH")
	s.read()
	s.press("q")
	s.end()
}

// Each task of the floor takes as many keys as DEVELOPERS.md says, none more
// than it may, typed as the table has them.
func TestFloor_keyCounts(t *testing.T) {
	text, err := os.ReadFile("../../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	tasks := floorTasks()
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(line, "|")
		if len(cells) != 5 {
			continue
		}
		name := strings.TrimSpace(cells[1])
		task, ok := tasks[name]
		if !ok {
			continue
		}
		delete(tasks, name)
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			typed := strings.Fields(strings.Trim(strings.TrimSpace(cells[2]), "`"))
			n := len(typed)
			if count := strings.TrimSpace(cells[3]); count != strconv.Itoa(n) {
				t.Errorf("%d keys, the table says %s", n, count)
			}
			if n > task.most {
				t.Errorf("%d keys, %d are the most", n, task.most)
			}
			h := newHome(t)
			if task.begin != nil {
				task.begin(t, h)
			}
			s := h.open(t, task.open...)
			s.see("?")
			for _, k := range task.first {
				s.press(strings.ToLower(k)).read()
			}
			for _, k := range typed {
				s.press(strings.ToLower(k)).read()
			}
			s.see(task.see...)
			s.signal(syscall.SIGTERM)
			s.end()
		})
	}
	for name := range tasks {
		t.Errorf("DEVELOPERS.md has no keys for: %s", name)
	}
}
