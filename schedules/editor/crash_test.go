package editor_test

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
)

// The test needs a process that is killed: this test binary, told by the
// environment which document to edit for ever.
const (
	crashVariable = "EDITOR_TEST_CRASH"
	killsVariable = "VEILWRIGHT_KILLS" // how often, where more than usual is wanted
	usualKills    = 20
)

func TestMain(m *testing.M) {
	path := os.Getenv(crashVariable)
	if path == "" {
		os.Exit(m.Run())
	}
	fmt.Println("error", editForEver(path))
	os.Exit(1)
}

// editForEver edits at random, and saves now and then, as the terminal program
// does: the work is kept beside the edits, and says so late. The title counts
// the edits.
func editForEver(path string) error {
	d, err := editor.Open(path, none)
	if err != nil {
		return err
	}
	var keeping sync.WaitGroup
	for n := number(d.Now().Title) + 1; ; n++ {
		row := rand.IntN(len(d.Now().Plies)+1) - 1
		change := []edit.Edit{
			edit.AddPly(d.Now(), d.Library(), row, ids[rand.IntN(len(ids))]),
			edit.Remove(d.Now(), d.Library(), row),
			edit.AddCount(d.Now(), d.Library(), row, 1+rand.IntN(3)),
			edit.Move(d.Now(), d.Library(), row, rand.IntN(5)-2),
		}[rand.IntN(4)]
		_ = d.Apply(change) // refused ones are part of it
		if err := d.Apply(edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = strconv.Itoa(n) })); err != nil {
			return err
		}
		work := d.Work()
		keeping.Go(func() {
			if err := work.Keep(); err != nil {
				fmt.Println("error", err)
			}
			fmt.Println("kept", n)
		})
		if rand.IntN(3) > 0 {
			keeping.Wait()
		}
		if rand.IntN(4) == 0 {
			if err := d.Save(); err != nil {
				return err
			}
			fmt.Println("saved", n)
		}
	}
}

func number(title string) int {
	n, _ := strconv.Atoi(title)
	return n
}

// edits is the number of edits that a text has.
func edits(t *testing.T, what string, text []byte) int {
	t.Helper()
	_, s, problems := schedules.Decode(text, nil)
	if len(problems) > 0 {
		t.Fatalf("%s is torn: %v\n%s", what, problems, text)
	}
	return number(s.Title)
}

// killed runs a process that edits the document, kills it at a moment that means
// nothing to it, and gives the number of the last edit that it said was kept or
// saved.
func killed(t *testing.T, path string) (last int) {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), crashVariable+"="+path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	first := true
	for lines.Scan() {
		word, rest, _ := strings.Cut(lines.Text(), " ")
		if word == "error" {
			t.Errorf("it could not go on: %s", rest)
		}
		last = max(last, number(rest))
		if first {
			first = false
			time.AfterFunc(time.Duration(rand.Int64N(int64(40*time.Millisecond))), func() { _ = cmd.Process.Kill() })
		}
	}
	_ = cmd.Wait()
	return last
}

// A program that is killed at any moment of edits and saves loses nothing that
// it had kept or saved, leaves no torn file, and the next start offers nothing
// that is older than the file and leaves nothing lying about.
func TestCrash_losesNothingAndLeavesNothing(t *testing.T) {
	kills := usualKills
	if n, err := strconv.Atoi(os.Getenv(killsVariable)); err == nil {
		kills = n
	}
	home(t)
	state, err := store.StateFolder()
	if err != nil {
		t.Fatal(err)
	}
	path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
	taken := 0
	for round := range kills {
		last := killed(t, path)
		inFile := edits(t, "the file", []byte(read(t, path)))

		store.Sweep(filepath.Dir(path))
		d, err := editor.Open(path, none)
		if err != nil {
			t.Fatal(err)
		}
		have := inFile
		if left := d.Pending(); left != nil {
			taken++
			if left.Overtaken {
				t.Errorf("round %d: what is offered does not know what the file says", round)
			}
			if _, err := d.TakeRecovered(); err != nil {
				t.Fatal(err)
			}
			if have = edits(t, "what is offered", d.Bytes()); have <= inFile {
				t.Errorf("round %d: the file has %d edits, and %d are offered", round, inFile, have)
			}
			if d.Pending() != nil {
				t.Errorf("round %d: more is offered", round)
			}
		}
		if have < last {
			t.Errorf("round %d: %d edits were kept, and %d are there", round, last, have)
		}
		if err := errors.Join(d.Save(), d.Close()); err != nil {
			t.Fatal(err)
		}
		var there []string
		for _, dir := range []string{filepath.Dir(path), state} {
			_ = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
				if err == nil && !e.IsDir() {
					there = append(there, path)
				}
				return nil
			})
		}
		if !slices.Equal(there, []string{path}) {
			t.Errorf("round %d: there are %q", round, there)
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%d kills, %d with work to recover", kills, taken)
}
