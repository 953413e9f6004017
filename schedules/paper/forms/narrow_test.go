package forms_test

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/forms"
)

// headings are the titles of a sheet, each with what stands below it as far as the
// next, in words.
func sections(sheet paper.Sheet) map[string]string {
	list, title := map[string]string{}, ""
	for _, b := range sheet {
		if h, ok := b.(paper.Heading); ok && h.Level == 1 {
			title = h.Text
			continue
		}
		if title != "" {
			list[title] += fmt.Sprintf("%+v\n", b)
		}
	}
	return list
}

// The papers of the parts, joints and nozzles of a job hold together what that of
// the whole job holds, each of them its own and nothing of another.
func TestNarrow_takesTheWholePaperApart(t *testing.T) {
	whole := subject(t, "jobs/bleach-day-tank.toml")
	for _, name := range []string{"laminate-schedule", "lay-up-sheet", "inspection-plan", "calculation"} {
		kind := forms.Named(name)
		all := sections(kind.Form(whole).Sheet)
		delete(all, "Whole job")
		seen := map[string]string{}
		narrow := func(part, joint string) {
			of := subject(t, "jobs/bleach-day-tank.toml")
			if err := of.Narrow(part, joint); err != nil {
				t.Fatal(err)
			}
			f := kind.Form(of)
			if f.Part != of.Name() {
				t.Errorf("%s of %s says that it is of %q", name, of.Name(), f.Part)
			}
			for title := range sections(f.Sheet) {
				if by, twice := seen[title]; twice {
					t.Errorf("%s: %q stands on the papers of %s and %s", name, title, by, of.Name())
				}
				if !strings.Contains(title, of.ID()) {
					t.Errorf("%s of %s has %q", name, of.Name(), title)
				}
				seen[title] = of.Name()
			}
		}
		for i := range whole.Job.Parts {
			narrow(whole.Job.Parts[i].ID, "")
		}
		for i := range whole.Job.Joints {
			narrow("", whole.Job.Joints[i].ID)
		}
		for i := range whole.Job.Nozzles {
			narrow("", whole.Job.Nozzles[i].ID)
		}
		for title := range all {
			if seen[title] == "" {
				t.Errorf("%s: %q stands on no paper of its own", name, title)
			}
		}
		if len(seen) != len(all) || len(all) < len(whole.Parts) {
			t.Errorf("%s: %d sections of %d", name, len(seen), len(all))
		}
	}
}

// Whoever lays up a joint has one sheet in hand: the cautions, when to stop and the
// mix stand on it, and no resin that is not used there.
func TestNarrow_aJointsLayUpSheetStandsAlone(t *testing.T) {
	of := subject(t, "jobs/bleach-day-tank.toml")
	if err := of.Narrow("", "J1"); err != nil {
		t.Fatal(err)
	}
	got := text(t, forms.Named("lay-up-sheet").Form(of))
	for _, want := range []string{"NEVER mix peroxide", "abrade to a dull", "entry permit", "Stop, and call the foreman", "Resin mix", "J1, seal", "J1, strap", "HOLD before each overlay"} {
		if !strings.Contains(got, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if strings.Contains(got, "mold or mandrel") {
		t.Error("it asks for the mold of what is laid on a cured face")
	}
}

// Findings about another part do not stand on the paper of one, those of the whole
// job do.
func TestNarrow_warnsOfItsOwnAndOfTheWhole(t *testing.T) {
	of := subject(t, "jobs/bleach-day-tank.toml")
	if err := of.Narrow("shell-1", ""); err != nil {
		t.Fatal(err)
	}
	for i := range of.Whole {
		if at := of.Whole[i].At; at.Kind == of.Only.Kind && at.Index != of.Only.Index {
			t.Errorf("a finding about another part is left: %s", of.Whole[i].Message)
		}
	}
	if len(of.Whole) == 0 {
		t.Error("the job says nothing of shell-1, and this test nothing")
	}
}
