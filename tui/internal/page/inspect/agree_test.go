package inspect

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"frp/veilwright/rules"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
)

const acceptanceFolder = "../../../../testdata/acceptance"

// The page says of a part what the command line and the report say of it, line by
// line: of each way in which a record can fail, and of those that are accepted.
func TestCompare_saysOnThePageWhatTheCommandLineSays(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(acceptanceFolder, "records", "*.toml"))
	if err != nil || len(files) < 80 {
		t.Fatalf("%d records: %v", len(files), err)
	}
	verdicts := map[string]int{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name, schedule := filepath.Base(file), "tank-shell.toml"
		if strings.Contains(string(text), "tank-shell-unstated.toml") {
			schedule = "tank-shell-unstated.toml"
		}
		others := []string{"acceptance/shop-book.toml", "acceptance/specification.toml", "acceptance/records/" + name}
		if strings.HasPrefix(name, "serial-doubled") {
			others = append(others[:2], "acceptance/records/serial-doubled.toml", "acceptance/records/serial-doubled-too.toml")
		}
		g := open(t, 80, 24, "acceptance/"+schedule, others...)
		if err := g.Records.OpenSpecification(g.Path("specification.toml")); err != nil {
			t.Fatal(err)
		}
		opened := g.Records.Open(g.Path(name))
		g.Page.Settle()
		books := shop.New(shop.Options{})
		built := books.Read(g.Path(name)) // as it is now: opening puts a half-written entry aside
		if !built.Usable() {
			if opened == nil {
				t.Errorf("%s: the page opens what cannot be read", name)
			}
			continue
		}
		if opened != nil {
			t.Errorf("%s: %v", name, opened)
			continue
		}
		h := recorder.Hold(books.Read(g.Path(schedule)), books.Read(g.Path("specification.toml")), built, rules.Options{Units: g.Page.Desk.Units()})
		if diff := cmp.Diff(h.Result, g.Page.result); diff != "" {
			t.Errorf("%s: command line and page differ: %s", name, diff)
		}
		verdicts[h.Result.Answer.String()]++
	}
	for _, v := range []string{"accept", "reject", "incomplete", "not inspected"} {
		if verdicts[v] == 0 {
			t.Errorf("none of the records comes to %s: %v", v, verdicts)
		}
	}
}
