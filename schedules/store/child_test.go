package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// The tests need a second process to hold locks, to be killed and to run out of
// room: this test binary, told by the environment which part to play.
const roleVariable = "STORE_TEST_ROLE"

func TestMain(m *testing.M) {
	role := os.Getenv(roleVariable)
	if role == "" {
		os.Exit(m.Run())
	}
	if err := play(role, os.Args[1:]); err != nil {
		fmt.Println("error:", err)
		os.Exit(1)
	}
}

func play(role string, args []string) error {
	path := args[0]
	switch role {
	case "hold a lock":
		if _, err := TryLock(path); err != nil {
			return err
		}
		fmt.Println("held")
		_, err := io.Copy(io.Discard, os.Stdin)
		return err
	case "hold a log":
		if _, _, err := OpenAppendLog(path, wholeEntries); err != nil {
			return err
		}
		fmt.Println("held")
		_, err := io.Copy(io.Discard, os.Stdin)
		return err
	case "save for ever":
		for n := 0; ; n++ {
			if _, err := write(path, bigText(n), nil); err != nil {
				return err
			}
			fmt.Println(n)
		}
	case "keep a journal for ever":
		j := NewJournal(path)
		for n := 1; ; n++ {
			if err := j.Save(bigText(n), Meta{Rev: uint64(n)}); err != nil {
				return err
			}
			fmt.Println(n)
		}
	case "save and begin journals for ever":
		for n := 1; ; n++ {
			j := NewJournal(path)
			if err := j.Save(bigText(n), Meta{Rev: 1}); err != nil {
				return err
			}
			f, err := Read(path)
			if err != nil {
				return err
			}
			if _, err := Replace(path, bigText(n), Terms{Expect: f.Fingerprint, Journal: j, Meta: Meta{Rev: 1}}); err != nil {
				return err
			}
			fmt.Println(n)
		}
	case "append for ever":
		l, _, err := OpenAppendLog(path, wholeEntries)
		if err != nil {
			return err
		}
		for n := 0; ; n++ {
			if err := l.Append(fmt.Appendf(nil, "tick %d\n\n", n)); err != nil {
				return err
			}
			fmt.Println(n)
		}
	case "save without room":
		if err := limitFileSize(); err != nil {
			return err
		}
		_, err := write(path, bigText(0), nil)
		return expectNoRoom(err)
	case "append without room":
		l, _, err := OpenAppendLog(path, wholeEntries)
		if err != nil {
			return err
		}
		if err := limitFileSize(); err != nil {
			return err
		}
		if err := expectNoRoom(l.Append(append(bigText(0), "\n\n"...))); err != nil {
			return err
		}
		return l.Append([]byte("small\n\n"))
	case "keep a journal without room":
		if err := limitFileSize(); err != nil {
			return err
		}
		j := NewJournal(path)
		if err := j.Save([]byte("small"), Meta{Rev: 1}); err != nil {
			return err
		}
		if err := expectNoRoom(j.Save(bigText(0), Meta{Rev: 2})); err != nil {
			return err
		}
		if err := expectNoRoom(j.Trouble()); err != nil {
			return err
		}
		return j.Close()
	}
	return errors.New("no such role: " + role)
}

func expectNoRoom(err error) error {
	if !errors.Is(err, syscall.EFBIG) || !strings.Contains(err.Error(), "largest file size") {
		return fmt.Errorf("writing past the limit says %w", err)
	}
	return nil
}

// bigText is 64 KiB that differ from n to n and show any mixture.
func bigText(n int) []byte {
	return bytes.Repeat(fmt.Appendf(nil, "%15d\n", n), 4<<10)
}

type child struct {
	*exec.Cmd
	in    io.WriteCloser
	lines *bufio.Scanner
}

// start plays a role in a process of its own, which the end of the test ends.
func start(t *testing.T, role string, args ...string) *child {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe, args...)
	cmd.Env = append(os.Environ(), roleVariable+"="+role)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	c := &child{Cmd: cmd, in: in, lines: bufio.NewScanner(out)}
	t.Cleanup(func() { c.kill() })
	return c
}

func (c *child) line(t *testing.T) string {
	t.Helper()
	if !c.lines.Scan() {
		t.Fatalf("the other process said nothing more (%v)", c.lines.Err())
	}
	return c.lines.Text()
}

// kill is kill -9. It returns what the process had said by then.
func (c *child) kill() (rest []string) {
	_ = c.Process.Kill()
	for c.lines.Scan() {
		rest = append(rest, c.lines.Text())
	}
	_ = c.Wait()
	return rest
}

// killAfter kills the process once it counted to n, and returns how far it
// said that it had come.
func (c *child) killAfter(t *testing.T, n int) int {
	t.Helper()
	last := -1
	read := func(line string) {
		k, err := strconv.Atoi(line)
		if err != nil {
			t.Fatalf("the other process said %q", line)
		}
		last = k
	}
	for last < n {
		read(c.line(t))
	}
	for _, line := range c.kill() {
		read(line)
	}
	return last
}

// run plays a role to its end and fails where it does.
func run(t *testing.T, role string, args ...string) {
	t.Helper()
	c := start(t, role, args...)
	c.in.Close()
	var said []string
	for c.lines.Scan() {
		said = append(said, c.lines.Text())
	}
	if err := c.Wait(); err != nil {
		t.Fatalf("%s: %v\n%s", role, err, strings.Join(said, "\n"))
	}
}

// home gives the test user folders of its own.
func home(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	setHome(t, dir)
	t.Setenv("XDG_STATE_HOME", "")
	t.Setenv("XDG_CONFIG_HOME", "")
	return dir
}

// setHome has the user's folders below dir, whatever the system calls them.
func setHome(t *testing.T, dir string) {
	t.Helper()
	t.Setenv("HOME", dir)
	for variable, below := range map[string]string{"LOCALAPPDATA": ".local/state", "APPDATA": ".config"} {
		if dir != "" {
			below = filepath.Join(dir, below)
		} else {
			below = ""
		}
		t.Setenv(variable, below)
	}
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func get(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func changed(path string, f Fingerprint) (bool, error) {
	how, err := Since(path, f)
	return how != Unchanged, err
}
