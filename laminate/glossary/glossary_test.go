package glossary_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate/glossary"
)

func TestWords_nameEachThingOnceAndNeverByARetiredWord(t *testing.T) {
	concepts := map[string]bool{}
	for _, e := range glossary.Words() {
		if e.Concept == "" || e.Word == "" || concepts[e.Concept] {
			t.Errorf("concept given twice, or without a word: %+v", e)
		}
		concepts[e.Concept] = true
		for _, s := range glossary.Check(e.Word) {
			t.Errorf("%q is retired, say %q", s.Found, s.Say)
		}
		for _, s := range glossary.Check(e.Meaning) {
			// What shops say, and what a mat is held together by.
			if allowed := map[string]string{"catalyst": "Initiator", "binder": "Chopped strand mat"}; allowed[s.Found] != e.Word {
				t.Errorf("%s: %q is retired, say %q", e.Word, s.Found, s.Say)
			}
		}
	}
}

func TestTerms_explainTheWordsOfTheTradeAndSayWhereTheyComeFrom(t *testing.T) {
	terms := glossary.Terms()
	have := map[string]bool{}
	for i, e := range terms {
		have[e.Word] = true
		if e.Source == "" || !strings.HasSuffix(e.Meaning, ".") {
			t.Errorf("%+v", e)
		}
		if i > 0 && strings.ToLower(terms[i-1].Word) >= strings.ToLower(e.Word) {
			t.Errorf("%q stands before %q", terms[i-1].Word, e.Word)
		}
	}
	for _, word := range strings.Split("Break Incomplete Warning Note Clear Fluid Initiator Cure Void Blister Delamination Pit Resin Ply Schedule Laminate Upset Thixotrope Synergist", " ") {
		if !have[word] {
			t.Errorf("the glossary lacks %q", word)
		}
	}
}

func TestCheck_findsRetiredWordsAndUKSpellingAsWholeWords(t *testing.T) {
	for text, want := range map[string]string{
		"Fluids that the buyer demands.": "requirement purchaser", "The Catalyst is grey": "initiator gray", "carbon_remedy": "", "cloth-bound remedy": "fix",
		"the recommended fix, amended": "", "fiber": "", "cannot be told": "cannot be determined; not recorded; not stated",
	} {
		var say []string
		for _, s := range glossary.Check(text) {
			say = append(say, strings.ToLower(s.Say))
		}
		got := strings.Join(say, " ")
		if len(got) != len(want) || (len(say) < 2 && got != want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
