package finding

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestJudge(t *testing.T) {
	of := map[Severity]Finding{
		Advice:    {Code: MountLow},
		Caution:   {Code: ForceTest},
		Condition: {Code: StopNeeded},
		Review:    {Code: PierNeedsReview},
		Blocker:   {Code: LeafTooLong},
	}
	for severity, f := range of {
		if f.Severity() != severity {
			t.Fatalf("%s has severity %d, this test takes it for %d", f.Code, f.Severity(), severity)
		}
	}
	for name, c := range map[string]struct {
		severities []Severity
		want       Verdict
	}{
		"nothing":                 {nil, Suitable},
		"advice":                  {[]Severity{Advice}, Suitable},
		"caution":                 {[]Severity{Caution}, Suitable},
		"advice and caution":      {[]Severity{Caution, Advice, Caution}, Suitable},
		"condition":               {[]Severity{Condition}, SuitableWithConditions},
		"condition among light":   {[]Severity{Advice, Condition, Caution}, SuitableWithConditions},
		"many conditions":         {[]Severity{Condition, Condition, Condition}, SuitableWithConditions},
		"review":                  {[]Severity{Review}, AdviserReview},
		"review, then condition":  {[]Severity{Review, Condition}, AdviserReview},
		"condition, then review":  {[]Severity{Condition, Review}, AdviserReview},
		"blocker":                 {[]Severity{Blocker}, Unsuitable},
		"blocker, then review":    {[]Severity{Blocker, Review}, Unsuitable},
		"review, then blocker":    {[]Severity{Review, Blocker}, Unsuitable},
		"everything":              {[]Severity{Advice, Caution, Condition, Review, Blocker}, Unsuitable},
		"everything but blockers": {[]Severity{Advice, Caution, Condition, Review}, AdviserReview},
	} {
		t.Run(name, func(t *testing.T) {
			var one []Finding
			var each [][]Finding
			for _, s := range c.severities {
				one = append(one, of[s])
				each = append(each, nil, []Finding{of[s]})
			}
			if got := Judge(one); got != c.want {
				t.Errorf("one list: verdict %d, want %d", got, c.want)
			}
			if got := Judge(each...); got != c.want {
				t.Errorf("a list each: verdict %d, want %d", got, c.want)
			}
		})
	}
}

func TestSortOrder(t *testing.T) {
	want := []Finding{
		{Code: AngleOutOfReach, Subject: "z"}, // the least blocker
		{Code: LeafTooLong, Subject: "a"},
		{Code: LeafTooLong, Subject: "b", Message: "1"},
		{Code: LeafTooLong, Subject: "b", Message: "2"},
		{Code: PierNeedsReview},
		{Code: HingesRising},
		{Code: StopNeeded},
		{Code: HingesWorn},
		{Code: RailsNotGiven},
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	Sort(got)
	if !slices.EqualFunc(got, want, sameFinding) {
		t.Errorf("sorted to\n%v, want\n%v", got, want)
	}
}

func TestSortDependsOnNoOrder(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	var list []Finding
	for _, c := range Codes() {
		for _, subject := range []string{"", "gate", "gate.leaves[0].width_mm"} {
			list = append(list, Finding{Code: c, Subject: subject, Message: "a"}, Finding{Code: c, Subject: subject, Message: "b"})
		}
	}
	want := slices.Clone(list)
	Sort(want)
	for i := 1; i < len(want); i++ {
		if want[i-1].Severity() < want[i].Severity() {
			t.Fatalf("%s comes before the heavier %s", want[i-1].Code, want[i].Code)
		}
	}
	for range 50 {
		random.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		got := slices.Clone(list)
		Sort(got)
		if !slices.EqualFunc(got, want, sameFinding) {
			t.Fatal("the order depends on the order before")
		}
	}
}

func sameFinding(a, b Finding) bool {
	return a.Code == b.Code && a.Subject == b.Subject && a.Message == b.Message
}
