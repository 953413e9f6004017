package inspect

import (
	"strings"
	"testing"
)

// Where nothing was compared nobody is told that no line fails: what to do is said.
func TestProblem_nothingIsSaidOfWhatWasNotCompared(t *testing.T) {
	g := open(t, 80, 24, spool, demands)
	says := func(want string) {
		t.Helper()
		g.Page.Settle()
		if why := g.Page.haveProblem(); why != want {
			t.Errorf("n says %q, not %q", why, want)
		}
	}
	says("nothing to compare with yet: 5 chooses a specification; of the record 6 chooses one")
	// A record of it lies here, not opened.
	g.Press("6", "1")
	g.Typed("K-402-7", "")
	if err := g.Records.Close(); err != nil {
		t.Fatal(err)
	}
	g.Page = New(g.Desk, g.Records)
	g.Size(80, 24)
	g.Page.Settle()
	if g.Records.Record() != nil {
		t.Fatal("it is open")
	}
	says("nothing to compare with yet: 5 chooses a specification; of the record 6 opens the one that lies here")

	// With one of the two something is compared, and not all that there is.
	if err := g.Records.OpenSpecification(g.Path("acid-drain.toml")); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if why := g.Page.haveProblem(); why != "" && !strings.Contains(why, "no record is open: 6 opens") {
		t.Errorf("without a record n says %q", why)
	}

	// All requirements are met, and that alone is when it is said.
	g = compared(t, 80, 24, "accept")
	says("no line fails, and all can be determined")
	if strings.Contains(g.Screen(), "incomplete") {
		t.Error(g.Screen())
	}
}

// A reading taken while nothing is required is not said to be required by nobody.
func TestReading_saysThatNoSpecificationIsChosen(t *testing.T) {
	g := open(t, 80, 24, spool)
	g.Press("6", "1")
	g.Typed("K-402-7", "")
	g.Press("1", "1")
	g.Shows("required   not known: no specification is chosen (5)")
}
