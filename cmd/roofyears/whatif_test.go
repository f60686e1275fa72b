package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/report"
	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// moved sets the sliders of a page, as a hand would, to each of some settings,
// and gives what is then shown: the value of every slider, the figures by row
// and alternative, the study's own figures beside them, and the sentence.
const moved = `((settings) => {
	const root = document.getElementById('what-if-host').shadowRoot;
	const inputs = [...root.querySelectorAll('input[type=range]')];
	const text = (el) => el ? el.textContent : '';
	return settings.map((positions) => {
		positions.forEach((p, i) => {
			if (Number(inputs[i].value) === p) return;
			inputs[i].value = p;
			inputs[i].dispatchEvent(new Event('input', { bubbles: true }));
		});
		const cells = [...root.querySelectorAll('tbody tr')].map((row) => [...row.querySelectorAll('td')]);
		return {
			values: inputs.map((i) => i.getAttribute('aria-valuetext')),
			outputs: [...root.querySelectorAll('output')].map(text),
			now: cells.map((row) => row.map((cell) => text(cell.querySelector('.now')))),
			own: cells.map((row) => row.map((cell) => text(cell.querySelector('.own')))),
			sentence: text(root.querySelector('[aria-live=polite]')),
		};
	});
})`

// shown is what a page shows at one setting of its sliders.
type shown struct {
	Values, Outputs []string
	Now, Own        [][]string
	Sentence        string
}

// trial is a study whose what-if is tried.
type trial struct {
	study   report.Study
	block   report.WhatIf
	sliders []report.Slider
	page    string
}

func trialOf(t *testing.T, path string) trial {
	t.Helper()
	study, err := commands{std: stream{nil, &bytes.Buffer{}, &bytes.Buffer{}}}.study(path)
	require.NoError(t, err)
	doc, err := document(study, report.Options{Trials: 200, Seed: 1, Paper: report.A4})
	require.NoError(t, err)
	out := trial{study: study, page: pageOf(t, path)}
	for _, s := range doc.Sections {
		for _, b := range s.Blocks {
			if w, is := b.(report.WhatIf); is {
				out.block = w
			}
		}
	}
	for _, g := range out.block.Groups {
		out.sliders = append(out.sliders, g.Sliders...)
	}
	require.NotEmpty(t, out.sliders, path)
	return out
}

// settings are the study's own, both ends of each slider, and random ones.
func (r trial) settings(random *rand.Rand, n int) [][]int {
	own := make([]int, len(r.sliders))
	for i, s := range r.sliders {
		own[i] = s.Start
	}
	out := [][]int{own}
	for i, s := range r.sliders {
		for _, end := range []int{0, len(s.Positions) - 1} {
			at := slices.Clone(own)
			at[i] = end
			out = append(out, at)
		}
	}
	for range n {
		at := make([]int, len(r.sliders))
		for i, s := range r.sliders {
			at[i] = random.IntN(len(s.Positions))
		}
		out = append(out, at)
	}
	return out
}

// vector is what a setting stands for.
func (r trial) vector(positions []int) lcc.Vector {
	v := r.study.Result.Study.Likely()
	for i, s := range r.sliders {
		for j, in := range s.Inputs {
			v[in] = s.Positions[positions[i]].Values[j]
		}
	}
	return v
}

// rows are the figures that the tables of a report on a result would show.
func rows(t *testing.T, result *lcc.Result) [][]string {
	t.Helper()
	doc := report.Brief(report.Study{Result: result})
	_, tables := gathered(doc)
	var out [][]string
	for _, row := range tables["compare"].Rows {
		head := row.Cells[0].Text
		if strings.HasPrefix(head, "Annual worth per") || strings.Contains(head, "SIR") || strings.Contains(head, "AIRR") || strings.Contains(head, "payback") {
			continue // not among what is tried
		}
		var cells []string
		for _, c := range row.Cells[1:] {
			cells = append(cells, c.Show(doc.Currency))
		}
		out = append(out, cells)
	}
	return out
}

// Whatever the sliders are set to, the page shows what the engine gives there.
func TestWhatIfShowsWhatTheEngineGives(t *testing.T) {
	settings, impossible := 0, 0
	random := rand.New(rand.NewPCG(3, 5))
	for _, path := range []string{"example:cold-store", "example:school",
		variant(t, "cold-store", "currency: USD", "currency: JPY", "timing: end-of-year", "timing: mid-year", "residual: prorated", "residual: 90000.5"),
		variant(t, "school", "base_case: true", "base_case: false", "period: 30 ", "period: 29 ", ", 2.6%]", "]"),
		"../../testdata/scenarios/good/forms.yaml", "../../testdata/scenarios/good/waits.yaml",
		variantOf(t, "../../testdata/scenarios/good/survey.yaml", "discount_rate: 3%", "discount_rate: {low: 1%, likely: 3%, high: 7%}",
			"life: 4\n", "life: {low: 2, likely: 4, high: 6}\n", "labour: 0.45,", "labour: {low: 0.30, likely: 0.45, high: 0.80},",
			"start: restoration}", "start: restoration, wait: {on: existing, years: 3}}"),
		variantOf(t, "../../testdata/scenarios/good/survey-metric.yaml", "discount_rate: 3%", "discount_rate: {low: 1%, likely: 3%, high: 7%}",
			"life: 25,", "life: {low: 20, likely: 25, high: 33},", "price: 9,", "price: {low: 7, likely: 9, high: 14},"),
		"../../testdata/scenarios/good/cool-roof.yaml",
		variantOf(t, "../../testdata/scenarios/good/cool-roof-metric.yaml", "discount_rate: 5%", "discount_rate: {low: 3%, likely: 5%, high: 8%}",
			"life: 10\n", "life: {low: 7, likely: 10, high: 13}\n"),
		"../../testdata/scenarios/odd/text-with-comma.yaml", "../../testdata/scenarios/odd/wait-over-low-life.yaml"} {
		r := trialOf(t, path)
		wanted := r.settings(random, 40)
		list, err := json.Marshal(wanted)
		require.NoError(t, err)
		p := browsertest.Open(t, r.page, browsertest.Options{})
		own := rows(t, r.study.Result)
		for i, s := range browsertest.Eval[[]shown](p, moved+"("+string(list)+")") {
			settings++
			if !r.check(t, wanted[i], s, own) {
				impossible++
			}
		}
		assertQuiet(t, p)
	}
	assert.GreaterOrEqual(t, settings, 300)
	assert.Greater(t, impossible, 0, "a wait was longer than a life somewhere")
	assert.Less(t, impossible, settings/4)
}

// check compares a setting with the engine; it reports false where the engine
// gives no result.
func (r trial) check(t *testing.T, positions []int, s shown, own [][]string) bool {
	t.Helper()
	context := fmt.Sprintf("%s at %v", r.page, positions)
	for i, p := range positions {
		assert.Equal(t, r.sliders[i].Positions[p].Text, s.Values[i], context)
		assert.Equal(t, r.sliders[i].Positions[p].Text, s.Outputs[i], context)
	}
	result, err := r.study.Result.Study.EvaluateAt(r.vector(positions))
	if err != nil {
		require.ErrorContains(t, err, "waits")
		assert.Contains(t, s.Sentence, "Not possible with these settings: ", context)
		for _, row := range s.Now {
			for _, cell := range row {
				assert.Equal(t, "–", cell, context)
			}
		}
		return false
	}
	now := rows(t, result)
	assert.Equal(t, now, s.Now, context)
	for i, row := range now {
		for j, cell := range row {
			want := ""
			if cell != own[i][j] {
				want = "study: " + own[i][j]
			}
			assert.Equal(t, want, s.Own[i][j], context)
		}
	}
	r.checkSentence(t, result, s.Sentence, context)
	return true
}

// checkSentence compares the sentence with the engine's answer.
func (r trial) checkSentence(t *testing.T, result *lcc.Result, sentence, context string) {
	t.Helper()
	about := r.study.Result.Study.About
	cur := report.Currency{Code: about.Currency, Digits: about.Digits}
	a := result.Answer
	name := func(i int) string { return "“" + result.Alternatives[i].Alternative.Name + "”" }
	switch {
	case a.RunnerUp < 0:
		assert.Contains(t, sentence, name(a.Lowest)+" is the only alternative", context)
	case a.Margin.IsZero():
		assert.Contains(t, sentence, " tie to the last digit: each costs "+cur.Amount(result.Alternatives[a.Lowest].LCC), context)
	case a.Tie:
		assert.Contains(t, sentence, name(a.Lowest)+" costs least, but only "+cur.Amount(a.Margin)+" less than "+name(a.RunnerUp)+": for practical purposes the two tie.", context)
	default:
		assert.Contains(t, sentence, name(a.Lowest)+" costs least, "+cur.Amount(a.Margin)+" less than "+name(a.RunnerUp)+".", context)
	}
	other := a.Lowest != r.study.Result.Answer.Lowest && !a.Margin.IsZero()
	assert.Equal(t, other, strings.Contains(sentence, "In the study itself it is "), context)
}

// variant is a study file made of an example by replacing some of its text.
func variant(t *testing.T, example string, replace ...string) string {
	t.Helper()
	src, ok := scenarios.Example(example)
	require.True(t, ok)
	path := replaced(t, string(src.Text), replace)
	if strings.Contains(string(src.Text), "logo:") {
		putLogo(t, src, filepath.Dir(path))
	}
	return path
}

// variantOf is a study file made of another by replacing some of its text.
func variantOf(t *testing.T, path string, replace ...string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return replaced(t, string(text), replace)
}

// replaced writes a study with some of its text replaced.
func replaced(t *testing.T, text string, replace []string) string {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, text, replace[i])
		text = strings.ReplaceAll(text, replace[i], replace[i+1])
	}
	path := filepath.Join(t.TempDir(), "study.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// A study without any range has no what-if, and its page no script for it.
func TestNoWhatIfWithoutRanges(t *testing.T) {
	written, err := os.ReadFile(pageOf(t, "../../testdata/scenarios/odd/units-mixed.yaml"))
	require.NoError(t, err)
	assert.NotContains(t, string(written), "what-if")
	assert.NotContains(t, string(written), "lifeCycle")
}

// Where the discount rate has no range it has no slider, and the page says so.
func TestWhatIfSaysWhatCannotBeMoved(t *testing.T) {
	r := trialOf(t, "../../testdata/scenarios/odd/wait-over-low-life.yaml")
	assert.Equal(t, []string{
		"No range is stated for the discount rate, so it stays at 3%.",
		"No range of its own is stated for the first cost of “Tear-off and new roof” and the service life of “Tear-off and new roof”: what has none, or is shared with other costs, stays as the study has it.",
	}, r.block.Still)
	p := browsertest.Open(t, r.page, browsertest.Options{})
	assert.Contains(t, browsertest.Eval[string](p, inWhatIf+`.textContent`), r.block.Still[0])
}

// Each position is within the stated range, and the study's own is one of them.
func TestWhatIfPositions(t *testing.T) {
	for _, path := range []string{"example:cold-store", "example:school", "../../testdata/scenarios/good/waits.yaml"} {
		r := trialOf(t, path)
		for _, s := range r.sliders {
			assert.LessOrEqual(t, len(s.Positions), 63, s.Label)
			for j, in := range s.Inputs {
				input := r.study.Result.Study.Inputs[in]
				assert.True(t, input.Likely.Equal(s.Positions[s.Start].Values[j]), input.Path)
				before := decimal.NewFromInt(-1 << 40)
				for _, p := range s.Positions {
					assert.True(t, p.Values[j].GreaterThanOrEqual(before), input.Path)
					before = p.Values[j]
				}
				if input.Shape.HasRange() {
					assert.True(t, input.Low.Equal(s.Positions[0].Values[j]), input.Path)
					assert.True(t, input.High.Equal(s.Positions[len(s.Positions)-1].Values[j]), input.Path)
				}
			}
		}
	}
}

// A slider moves no alternative that its group does not name.
func TestWhatIfNamesWhatASliderMoves(t *testing.T) {
	for _, path := range []string{"example:cold-store", "../../testdata/scenarios/good/waits.yaml"} {
		r := trialOf(t, path)
		for _, setting := range r.settings(nil, 0)[1:] {
			result, err := r.study.Result.Study.EvaluateAt(r.vector(setting))
			require.NoError(t, err)
			moves := ""
			for i, s := range r.sliders {
				if setting[i] != s.Start {
					moves = r.groupOf(s).Moves
				}
			}
			for i, o := range result.Alternatives {
				if !o.LCC.Equal(r.study.Result.Alternatives[i].LCC) {
					assert.Regexp(t, "every alternative|“"+o.Alternative.Name+"”", moves, "%s at %v", path, setting)
				}
			}
		}
	}
}

// groupOf is the group that a slider stands in.
func (r trial) groupOf(s report.Slider) report.SliderGroup {
	at := slices.IndexFunc(r.block.Groups, func(g report.SliderGroup) bool {
		return slices.ContainsFunc(g.Sliders, func(o report.Slider) bool { return o.Inputs[0] == s.Inputs[0] })
	})
	return r.block.Groups[at]
}
