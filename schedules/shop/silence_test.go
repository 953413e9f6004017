package shop_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// quiet are the keys of the example that may be left out without a finding, and why.
var quiet = map[string]string{
	"title": "names", "job": "names", "revision": "names", "units": "what is shown",
	"service.contact": "every wall is judged as immersed", "service.conductive": "no demand", "service.abrasive": "no demand",
	"resin.cure": "asked for at lay-up, where it can hurt", "test.pressure": "a fill alone is a test", "test.held": "printed as agreed on",
	"part.ends": "figured both ways", "part.process": "of a bottom, which asks none", "part.edge": "the worse is taken",
	"nozzle.pad": "where the wall bears what the opening takes away", "nozzle.pad_diameter": "of a nozzle that needs none",
	"nozzle.height": "of one on a head, whose offset says it", "nozzle.bearing": "of the only one there",
}

var (
	heading = regexp.MustCompile(`^\[\[?([a-z.]+)\]`)
	stated  = regexp.MustCompile(`^\s*([a-z_]+)\s*=`)
	digits  = regexp.MustCompile(`[0-9][0-9.,]*`)
)

// told is what the rules say of a job, its figures left out, with how often.
func told(t *testing.T, text string) (said map[string]int, usable bool) {
	t.Helper()
	o := shop.New(shop.Options{NoBook: true}).Open("tank.toml", []byte(text), "")
	if o.Job == nil || len(o.Problems) > 0 {
		return nil, false
	}
	r, said := o.JudgeJob(rules.Options{}), map[string]int{}
	add := func(of string, list []rules.Finding) {
		for i := range list {
			said[of+fmt.Sprint(list[i].Severity, " ", list[i].Rule.ID, digits.ReplaceAllString(list[i].Message, "#"))]++
		}
	}
	add("", r.Findings)
	for i, p := range r.Parts {
		add(r.Job.Parts[i].ID+": ", p.Findings)
	}
	return said, true
}

// Whoever leaves a line of the example out is told so: no fact that matters goes
// without a word, and no table but by name. Plies are left out, which other tests vary.
func TestSilence_noLineOfTheExampleGoesWithoutAWord(t *testing.T) {
	lines := strings.Split(string(schedules.ExampleJob()), "\n")
	before, usable := told(t, strings.Join(lines, "\n"))
	if !usable {
		t.Fatal("the example cannot be used")
	}
	table, used := "", map[string]bool{}
	for i, line := range lines {
		if m := heading.FindStringSubmatch(line); m != nil {
			table = m[1] + "."
		}
		m := stated.FindStringSubmatch(line)
		if m == nil || strings.HasPrefix(table, "laminate.") {
			continue
		}
		after, usable := told(t, strings.Join(append(append([]string{}, lines[:i]...), lines[i+1:]...), "\n"))
		heard := !usable
		for what, n := range after {
			heard = heard || n > before[what]
		}
		key := table + m[1]
		if used[key] = used[key] || !heard; !heard && quiet[key] == "" {
			t.Errorf("line %d, %s, goes without a word: %s", i+1, key, strings.TrimSpace(line))
		}
	}
	for key := range quiet {
		if !used[key] {
			t.Errorf("%s is never quiet: take it off the list", key)
		}
	}
}
