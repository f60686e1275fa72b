package eligibility

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dice is where a random roof takes its choices from: a number from 0 to n.
type dice func(n int) int

// maybe is a finding, or none in one draw of eight.
func maybe[T any](d dice, of ...T) Known[T] {
	if d(7) == 7 {
		return Known[T]{}
	}
	return found(of[d(len(of)-1)])
}

// words are the words of a kind, always in the same order.
func words[T ~string](names map[T]string) []T {
	var out []T
	for w := range names {
		out = append(out, w)
	}
	slices.Sort(out)
	return out
}

func decimals(texts ...string) []decimal.Decimal {
	out := make([]decimal.Decimal, len(texts))
	for i, text := range texts {
		out[i] = dec(text)
	}
	return out
}

// chemistries are those that a planned or tested coating may have.
var chemistries = []Chemistry{Acrylic, Silicone, Urethane, OtherChemistry}

var truth = []bool{false, true}

// randomFindings makes a sound roof of which about an eighth is unknown.
func randomFindings(d dice) Findings {
	tests := make([]AdhesionTest, d(2))
	for i := range tests {
		tests[i] = AdhesionTest{Coating: chemistries[d(3)], Least: decimals("0.2", "1.9", "2", "5")[d(3)], Places: 1 + d(3)}
	}
	shares := decimals("0", "0.001", "0.25", "0.26", "0.6")
	return Findings{
		Units: Units(d(1)), Coverings: maybe(d, 0, 1, 2, 3),
		Covering: maybe(d, words(coveringNames)...), Surface: maybe(d, words(surfaceNames)...),
		ExistingCoating: maybe(d, words(chemistryNames)...), BaseSound: maybe(d, truth...),
		WaterSoaked: maybe(d, truth...), WetShare: maybe(d, shares...), WetFoundBy: maybe(d, words(methodNames)...),
		WetLimit: WetLimit{Share: decimals("0", "0.25", "0.5")[d(2)], ReplaceAll: d(3) == 3},
		Ponding:  maybe(d, shares...), Adhesion: maybe(d, tests),
		Rust:        maybe(d, Rust{}, Rust{Perforated: dec("0.01")}, Rust{Light: dec("0.5"), Scaled: dec("0.2")}),
		SectionLoss: maybe(d, truth...), Deck: maybe(d, words(deckNames)...), DeckSound: maybe(d, truth...),
		Reserve: maybe(d, decimals("0", "0.1", "2", "9")...), PullOutsTested: maybe(d, truth...),
		Code: maybe(d, words(codeNames)...), EnergyCode: maybe(d, words(energyCodeNames)...),
		Parapets: maybe(d, truth...), Seismic: maybe(d, words(seismicNames)...), AboveDeck: maybe(d, truth...), InEnvelope: maybe(d, truth...), Asbestos: maybe(d, words(asbestosNames)...),
	}
}

func randomOption(d dice) Option {
	return Option{
		Work: []Work{Keep, Restore, Recover, TearOff}[d(3)], Coating: maybe(d, chemistries...), SeparateSystem: maybe(d, truth...),
		AddedLoad:       maybe(d, decimals("-4", "0", "0.1", "0.1437", "3", "3.1", "12")...),
		WetPartReplaced: maybe(d, truth...), PanelsReplaced: maybe(d, truth...), DrainageCorrected: maybe(d, truth...),
		DeckRepaired: maybe(d, truth...), AsbestosPriced: maybe(d, truth...), ParapetsBraced: maybe(d, truth...), Share: maybe(d, decimals("0.2", "0.25", "0.251", "1")...),
		Insulation: maybe(d, Insulation{}, Insulation{Priced: true}, Insulation{Waived: "no height at the curbs"}),
		FireShown:  maybe(d, truth...), WindShown: maybe(d, truth...),
	}
}

// findable are the places of a struct's Known fields.
func findable(of any) []int {
	t := reflect.TypeOf(of)
	var out []int
	for i := range t.NumField() {
		if strings.HasPrefix(t.Field(i).Type.Name(), "Known[") {
			out = append(out, i)
		}
	}
	return out
}

// forget makes one field of a struct unknown and gives its name.
func forget(from any, field int) string {
	v := reflect.ValueOf(from).Elem()
	v.Field(field).SetZero()
	return v.Type().Field(field).Name
}

// TestEveryFindingIsDrawn: a field that is never drawn would be under no law.
func TestEveryFindingIsDrawn(t *testing.T) {
	drawn := map[string]bool{}
	note := func(of any, fields []int) {
		for _, i := range fields {
			v := reflect.ValueOf(of)
			name := v.Type().Name() + "." + v.Type().Field(i).Name
			drawn[name] = drawn[name] || !v.Field(i).IsZero()
		}
	}
	drawMany(200, func(f Findings, o Option, _ []Judgement) {
		note(f, findable(f))
		note(o, findable(o))
	})
	require.Contains(t, drawn, "Findings.Coverings")
	require.Contains(t, drawn, "Option.Coating")
	for name, is := range drawn {
		assert.True(t, is, "%s is never drawn: add it to randomFindings or randomOption", name)
	}
}

// TestForgetting: knowing less may move a verdict to open and nowhere else.
// Forgetting one finding at a time suffices: the roofs drawn already lack some.
func TestForgetting(t *testing.T) {
	inFindings, inOption := findable(Findings{}), findable(Option{})
	hold := func(fewer, more []Judgement, forgot string) {
		for i := range more {
			if v := fewer[i].Verdict; v != Open && v != more[i].Verdict {
				t.Fatalf("%s: %q becomes %q without %s", more[i].Rule.ID, more[i].Says, fewer[i].Says, forgot)
			}
		}
	}
	drawMany(4_000, func(f Findings, o Option, all []Judgement) {
		for _, i := range inFindings {
			less := f
			name := forget(&less, i)
			hold(Judge(less, o), all, name)
		}
		for _, i := range inOption {
			less := o
			name := forget(&less, i)
			hold(Judge(f, less), all, name)
		}
		o.Work = ""
		hold(Judge(f, o), all, "the work")
	})
}

// drawMany puts many roofs to the rules, always the same ones.
func drawMany(n int, each func(Findings, Option, []Judgement)) {
	r := rand.New(rand.NewPCG(9, 25))
	d := dice(func(n int) int { return r.IntN(n + 1) })
	for range n {
		f, o := randomFindings(d), randomOption(d)
		each(f, o, Judge(f, o))
	}
}

// decides tells whether a rule of this mark may pass or fail an option.
func decides(m Mark) bool { return m <= CommonPractice }

// TestMarksBindVerdicts: what rests on one source or on memory never decides,
// and the roofs drawn bring out every verdict a rule can give.
func TestMarksBindVerdicts(t *testing.T) {
	seen := map[string]map[Verdict]bool{}
	drawMany(10_000, func(f Findings, o Option, all []Judgement) {
		for _, j := range all {
			if seen[j.Rule.ID] == nil {
				seen[j.Rule.ID] = map[Verdict]bool{}
			}
			seen[j.Rule.ID][j.Verdict] = true
		}
	})
	neverFail := []string{moistureSurvey.ID, structureCheck.ID, asbestosSurvey.ID}
	for _, r := range Rules() {
		got := seen[r.ID]
		assert.Equal(t, decides(r.Mark), got[Pass], "%s passes", r.ID)
		assert.Equal(t, decides(r.Mark) && !slices.Contains(neverFail, r.ID), got[Fail], "%s fails", r.ID)
		assert.Equal(t, decides(r.Mark), got[Open], "%s is open", r.ID)
		assert.Equal(t, !decides(r.Mark) || r.ID == asbestosSurvey.ID, got[Advice], "%s advises", r.ID)
		assert.True(t, got[NotConcerned], "%s is not concerned", r.ID)
	}
}

// TestOutcomesAreWhole: an open rule says what is missing, any other does not,
// and a rule that decides names where its findings come from.
func TestOutcomesAreWhole(t *testing.T) {
	drawMany(10_000, func(f Findings, o Option, all []Judgement) {
		for _, j := range all {
			bad := j.Says == "" || strings.Contains(j.Says, "  ") || strings.HasSuffix(j.Says, ".") ||
				(j.Verdict == Open) != (len(j.Needs) > 0) ||
				(j.Verdict == Pass || j.Verdict == Fail) && !slices.Contains(j.From, survey)
			if bad {
				t.Fatalf("%s (verdict %d): %q, needs %v, from %v", j.Rule.ID, j.Verdict, j.Says, j.Needs, j.From)
			}
		}
	})
}

// TestNothingKnown: no rule passes or fails a roof of which nothing is known.
func TestNothingKnown(t *testing.T) {
	for _, w := range []Work{"", Keep, Restore, Recover, TearOff} {
		for _, j := range Judge(Findings{}, Option{Work: w}) {
			want := []Verdict{Open}
			switch {
			case w == "": // not even that
			case !j.Rule.Applies(w):
				want = []Verdict{NotConcerned}
			case !decides(j.Rule.Mark):
				want = []Verdict{Advice}
			}
			assert.Contains(t, want, j.Verdict, "%s of %q: %s", j.Rule.ID, w, j.Says)
		}
	}
}
