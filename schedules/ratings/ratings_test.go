package ratings_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/ratings"
)

func TestImport_refusesRowByRow(t *testing.T) {
	rows, refused := ratings.Import(strings.NewReader("\ufeff"+strings.Join([]string{
		"grade;fluid;concentration;temperature;family;build;source;date",
		"A;lye;5 %;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;lye;5;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;lye;0.5 to 0.2;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;lye;0.05;100;vinyl-ester;100 mil;guide;2024",
		"A;lye;0.05;100 degF;vinylester;100 mil;guide;2024",
		"A;lye;0.05;100 degF;vinyl-ester;150 mil;guide;2024",
		";lye;0.05;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;lye;0.05;100 degF;vinyl-ester;100 mil;guide",
		"A;lye;NaN;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;l\x1bye;0.05;100 degF;vinyl-ester;100 mil;guide;2024",
		"A;\"lye;0.05",
	}, "\r\n")), []laminate.BarrierBuild{{ID: "150-mats", Veils: 1, Mats: 3}})
	if len(rows) != 1 || rows[0].Concentration != [2]float64{0.05, 0.05} || rows[0].Line != 2 || rows[0].Build != "100 mil" || rows[0].Family != laminate.VinylEster {
		t.Errorf("taken: %+v", rows)
	}
	want := []struct {
		line int
		says string
	}{
		{3, "concentration"}, {4, "descends"}, {5, "temperature"}, {6, "family"}, {7, "build"}, {8, "grade is missing"},
		{9, "7 fields"}, {10, "concentration"}, {11, "control character"}, {12, ""},
	}
	if len(refused) != len(want) {
		t.Fatalf("refused: %v", refused)
	}
	for i, w := range want {
		if refused[i].Line != w.line || !strings.Contains(refused[i].Why, w.says) || strings.ContainsRune(refused[i].Why, '\x1b') {
			t.Errorf("%d: %+v, want line %d to say %q", i, refused[i], w.line, w.says)
		}
	}
}

func TestImport_needsItsColumns(t *testing.T) {
	for text, says := range map[string]string{
		"":                       "name the columns",
		"fluid,grade\n":          `"concentration" is missing`,
		"fluid,color\n":          `no column is called "color"`,
		"fluid,fluid,x\n":        "twice",
		"a\x00b,c\nlye,0.05,A\n": "no column is called",
	} {
		rows, refused := ratings.Import(strings.NewReader(text), nil)
		if rows != nil || len(refused) != 1 || refused[0].Line != 1 || !strings.Contains(refused[0].Why, says) {
			t.Errorf("%q: %v %v, want it to say %q", text, rows, refused, says)
		}
	}
}

// However broken a row is, the limit counts it.
func TestImport_endsAtTheLimit(t *testing.T) {
	const most = 100_000
	head := "fluid,concentration,temperature,family,build,grade,source,date\n"
	for _, row := range []string{"x\n", "\"a\"b\n", "lye,0.05,100 degF,vinyl-ester,100 mil,A,guide,2024\n"} {
		rows, refused := ratings.Import(strings.NewReader(head+strings.Repeat(row, 2*most)), nil)
		if len(rows)+len(refused) != most+1 {
			t.Errorf("%q: %d taken, %d refused", row, len(rows), len(refused))
			continue
		}
		if last := refused[len(refused)-1]; last.Line != most+2 || !strings.Contains(last.Why, "more than 100000 rows") {
			t.Errorf("%q: %+v", row, last)
		}
	}
}
