package terminal

import (
	"io"
	"os"
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/keys"
)

// typist is a program that takes down what is typed.
type typist struct {
	reader keys.Reader
	got    chan string
}

func (m *typist) Init() tea.Cmd { return nil }
func (m *typist) View() string  { return "" }
func (m *typist) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	events, cmd, _ := m.reader.Read(msg)
	for _, e := range events {
		if e.Key == "" {
			e.Key = "paste:" + e.Paste
		}
		m.got <- e.Key
	}
	return m, cmd
}

// through types bytes through the library; waits are asked for, and end when
// they are told to.
func through(t *testing.T) (write func(string), read func() string, asked, waited chan struct{}) {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	m := &typist{got: make(chan string, 100)}
	asked, waited = make(chan struct{}, 1000), make(chan struct{})
	m.reader.After = func(_ time.Duration, msg keys.TimeoutMsg) tea.Cmd {
		asked <- struct{}{}
		return func() tea.Msg { <-waited; return msg }
	}
	p := tea.NewProgram(m, tea.WithInput(Input{r}), tea.WithOutput(io.Discard), tea.WithoutRenderer(), tea.WithoutSignalHandler())
	done := make(chan struct{})
	go func() { defer close(done); _, _ = p.Run() }()
	t.Cleanup(func() { p.Quit(); <-done; r.Close(); w.Close() })
	return func(s string) {
			if _, err := io.WriteString(w, s); err != nil {
				t.Fatal(err)
			}
		}, func() string {
			t.Helper()
			select {
			case s := <-m.got:
				return s
			case <-time.After(20 * time.Second):
				t.Fatal("nothing comes")
				return ""
			}
		}, asked, waited
}

func TestInput_anUnclosedPasteDoesNotSwallowKeysForGood(t *testing.T) {
	write, read, asked, waited := through(t)
	write("1")
	if got := read(); got != "1" {
		t.Fatalf("read %q", got)
	}
	write("\x1b[200~text without end\x03q")
	// Each of mark, words, blanks, Ctrl-C and q has the end waited for anew.
	for range 8 {
		<-asked
	}
	close(waited)
	if got := read(); got != "paste:text without endq" {
		t.Errorf("read %q", got)
	}
	write("\x03")
	if got := read(); got != "ctrl+c" {
		t.Errorf("read %q", got)
	}
}

func TestInput_closedPastes(t *testing.T) {
	write, read, _, waited := through(t)
	defer close(waited)
	long := ""
	for range 100 {
		long += "é管 "
	}
	for _, text := range []string{"2 in", "a\r\nb", long, ""} {
		want := "paste:" + text
		if text == "a\r\nb" {
			want = "paste:a\nb"
		}
		write("\x1b[200~" + text + "\x1b[201~+")
		if got := []string{read(), read()}; !slices.Equal(got, []string{want, "+"}) {
			t.Errorf("%q came as %q", text, got)
		}
	}
	// An end without a beginning is nothing.
	write("\x1b[201~+")
	if got := read(); got != "+" {
		t.Errorf("read %q", got)
	}
}

func TestExchange_cutsNothingElse(t *testing.T) {
	for in, want := range map[string]string{
		"":                            "",
		"abc":                         "abc",
		"\x1b[A\x1b[200~x\x1b[201~y":  "\x1b[A\xfex\xffy",
		"\x1b[20":                     "\x1b[20",
		"\xff\xfea\x1b[200":           "a\x1b[200",
		"\x1b\x1b[200~\x1b[201~\x1b[": "\x1b\xfe\xff\x1b[",
	} {
		b := []byte(in)
		if got := string(b[:exchange(b)]); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}
