//go:build unix

package e2e

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"frp/veilwright/schedules"
)

// wantedKills is how often a test kills, and in how many lanes beside each other.
func wantedKills() (kills, lanes int) {
	if n, err := strconv.Atoi(os.Getenv(killsVariable)); err == nil {
		return n, 4
	}
	return usualKills, 1
}

// counting is work whose every step shows as a number: how often a ply is laid.
type counting struct {
	args   []string
	row    *regexp.Regexp // the row on the screen, and the number; none is one
	begin  func(s *terminal) (recovered bool)
	save   bool // s saves
	finish func(s *terminal)
}

var countings = map[string]counting{
	"bench": {
		args: []string{"a.toml"},
		row:  regexp.MustCompile(`▸10.*? topcoat(?: ×(\d+))?`),
		begin: func(s *terminal) bool {
			if s.which("UNSAVED WORK", "BENCH") != "UNSAVED WORK" {
				s.see("▸10")
				return false
			}
			s.press("enter").see("took up the unsaved work")
			return true
		},
		save: true,
		finish: func(s *terminal) {
			if strings.Contains(s.text(), "not saved") {
				s.press("s").see("saved a.toml")
			}
			s.press("q")
		},
	},
	"practice": {
		args: []string{"practice", "--person", "Ana"},
		row:  regexp.MustCompile(`mat-1\.5(?: ×(\d+))?`),
		begin: func(s *terminal) bool {
			s.see("person Ana")
			s.press("1").see("exercises")
			s.press("1")
			if s.which("is kept that was not marked", "barrier none") == "barrier none" {
				s.read().press("1", "3").see("mat-1.5")
				return false
			}
			s.press("enter").see("mat-1.5")
			s.read().press("down", "down")
			return true
		},
		finish: func(s *terminal) {
			s.press("c").see("points")
			s.press("esc").see("exercises")
			s.press("q")
		},
	},
}

// shown is a number that stood on the screen, and since when.
type shown struct {
	n  int
	at time.Time
}

// number waits for the row to stand on the screen, with the number wanted where
// that is not 0.
func (c counting) number(s *terminal, wanted int) (n int) {
	s.t.Helper()
	s.until(fmt.Sprintf("the row with ×%d", wanted), func(screen string) bool {
		m := c.row.FindStringSubmatch(screen)
		if m == nil {
			return false
		}
		n = 1
		if m[1] != "" {
			n, _ = strconv.Atoi(m[1])
		}
		return wanted == 0 || n == wanted
	})
	return n
}

// killed opens the program, counts up and down and saves at random, and kills it
// at a moment that means nothing to it. States are the numbers that stood on the
// screen, the last of them perhaps not yet; those before kept need not come back.
func (c counting) killed(t *testing.T, h home, random *rand.Rand) (states []shown, kept int, at time.Time) {
	s := h.open(t, c.args...)
	s.mortal = true
	var when atomic.Int64
	kill := func() {
		when.CompareAndSwap(0, time.Now().UnixNano())
		_ = s.cmd.Process.Kill()
	}
	defer func() {
		if r := recover(); r != nil && r != any(lost{}) {
			panic(r)
		}
		s.mortal = false
		s.end()
		at = time.Unix(0, when.Load())
		for i, state := range states {
			if at.Sub(state.at) > time.Second {
				kept = max(kept, i)
			}
		}
	}()
	c.begin(s)
	n := c.number(s, 0)
	saved := n
	if c.save && strings.Contains(s.text(), "not saved") {
		saved = 0
	}
	states = append(states, shown{n, time.Now()})
	doom := -1
	if random.IntN(2) == 0 {
		defer time.AfterFunc(time.Duration(random.Int64N(int64(3*time.Second))), kill).Stop()
	} else {
		doom = random.IntN(12)
	}
	for i := 0; ; i++ {
		if i == doom {
			time.AfterFunc(time.Duration(random.Int64N(int64(30*time.Millisecond))), kill)
		}
		key, next := "+", n+1
		switch {
		case c.save && n != saved && random.IntN(5) == 0:
			s.press("s").see("saved a.toml")
			saved = n
			kept = len(states) - 1
			continue
		case n > 2 && random.IntN(2) == 0:
			key, next = "-", n-1
		}
		states = append(states, shown{next, time.Now().Add(time.Hour)})
		s.press(key)
		n = c.number(s, next)
		states[len(states)-1].at = time.Now()
		if random.IntN(3) == 0 {
			time.Sleep(time.Duration(random.Int64N(int64(400 * time.Millisecond))))
		}
	}
}

// A program that is killed at any moment of work loses nothing that stood on the
// screen for a second or was said to be saved, leaves no torn file, and after the
// next start nothing lies about. VEILWRIGHT_KILLS kills more often. What goes
// into a record is held by TestRecord_isNeverLessThanWhatWasAcknowledged.
func TestKilled_losesNothingOlderThanASecond(t *testing.T) {
	kills, lanes := wantedKills()
	for name, c := range countings {
		for lane := range lanes {
			t.Run(fmt.Sprintf("%s %d", name, lane), func(t *testing.T) {
				t.Parallel()
				seed := uint64(time.Now().UnixNano())
				t.Logf("seed %d", seed)
				random := rand.New(rand.NewPCG(seed, 0))
				h := newHome(t)
				if c.save {
					h.example(t, "a.toml")
				}
				taken := 0
				for range (kills + lanes - 1) / lanes {
					if c.round(t, h, random) {
						taken++
					}
				}
				t.Logf("%d kills, %d with work to take up", (kills+lanes-1)/lanes, taken)
			})
		}
	}
}

// round is one kill, and what the next start has of it.
func (c counting) round(t *testing.T, h home, random *rand.Rand) (recovered bool) {
	t.Helper()
	states, kept, at := c.killed(t, h, random)
	if c.save {
		if text := h.read(t, "a.toml"); !strings.HasSuffix(text, "\n") {
			t.Fatalf("the file is torn:\n%s", text)
		} else if _, _, problems := schedules.Decode([]byte(text), nil); len(problems) > 0 {
			t.Fatalf("the file is torn: %v\n%s", problems, text)
		}
	}
	s := h.open(t, c.args...)
	recovered = c.begin(s)
	n := c.number(s, 0)
	had := len(states) == 0 // killed before anything was shown: nothing is promised
	for _, state := range states[min(kept, len(states)):] {
		had = had || state.n == n
	}
	if !had {
		t.Errorf("×%d came back; killed at %s, on the screen were, from %d on to be kept:", n, at.Format(time.StampMilli), kept)
		for _, state := range states {
			t.Logf("×%d at %s", state.n, state.at.Format(time.StampMilli))
		}
		t.FailNow()
	}
	c.finish(s)
	if code := s.end(); code != 0 {
		t.Fatalf("ended with %d", code)
	}
	h.leftNothing(t)
	return recovered
}

// leftNothing holds that no file lies about that only a running program has.
func (h home) leftNothing(t *testing.T) {
	t.Helper()
	if left := slices.DeleteFunc(h.under(t), func(name string) bool {
		return !strings.HasPrefix(name, "locks/") && !strings.HasPrefix(name, "journals/") && !strings.Contains(name, ".veilwright-new")
	}); len(left) > 0 {
		t.Fatalf("left behind: %q", left)
	}
}
