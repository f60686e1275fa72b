package workbook

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"roofyears/lcc"
	"roofyears/report"
)

// verdictOf is what the check on the answer's sheet says.
func verdictOf(t *testing.T, b *book, f *excelize.File) string {
	return shown(t, f, b.answer.name, b.verdictAt())
}

// verdictAt is the cell of the check on the answer's sheet.
func (b *book) verdictAt() string {
	for r, line := range b.answer.cells {
		if len(line) > 0 && line[0].value == allKept {
			return here(r+1, 1)
		}
	}
	return ""
}

func shown(t *testing.T, f *excelize.File, sheet, cell string) string {
	text, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	return text
}

// otherLife is a trial with one life edited, without regard to the years of
// work, and the alternatives whose years are then other ones.
type otherLife struct {
	trial
	broken []bool // by alternative
}

// otherLives edits every life of a study by itself.
func otherLives(t *testing.T, tr trial, r *lcc.Result, dice *rand.Rand) []otherLife {
	var out []otherLife
	for i := range r.Study.Inputs {
		if r.Study.Inputs[i].Unit != lcc.Years || r.Study.IsDerived(lcc.Ref(i)) {
			continue
		}
		v := slices.Clone(r.Inputs)
		v[i] = decimal.Max(decimal.New(5, -1), v[i].Add(decimal.New(dice.Int64N(1400)-700, -2)))
		next, err := r.Study.EvaluateAt(v)
		if err != nil {
			continue // a wait that is longer than the life
		}
		edit := otherLife{trial: tr}
		edit.name = fmt.Sprintf("%s, %s from %s to %s", tr.name, r.Study.Inputs[i].Path, r.Inputs[i], v[i])
		edit.inputs = map[string]string{tr.want.inputs[i]: v[i].String()}
		for a := range r.Alternatives {
			edit.broken = append(edit.broken, !slices.Equal(r.Alternatives[a].Spells, next.Alternatives[a].Spells))
		}
		out = append(out, edit)
	}
	return out
}

func TestLivesThatGiveOtherYearsTurnTheChecksRed(t *testing.T) {
	edits, trials := map[string]otherLife{}, []trial(nil)
	add := func(name string, study report.Study, seed uint64) {
		for _, edit := range otherLives(t, plainly(t, name, study), study.Result, rand.New(rand.NewPCG(seed, 4))) {
			edits[edit.name] = edit
			trials = append(trials, edit.trial)
		}
	}
	add("cold-store", example(t, "cold-store"), 1)
	add("school", example(t, "school"), 2)
	for seed := uint64(1); seed <= 8; seed++ {
		r, err := randomStudy(seed).Evaluate()
		require.NoError(t, err)
		add(fmt.Sprintf("random study %d", seed), report.Study{Result: r}, seed)
	}
	red, calm := 0, 0
	for _, e := range edits {
		if slices.Contains(e.broken, true) {
			red++
		} else {
			calm++
		}
	}
	require.Greater(t, red, 10)
	require.Greater(t, calm, 5)
	for _, e := range engines {
		e.run(t, trials, func(tr trial, f *excelize.File) {
			broken := edits[tr.name].broken
			want := allKept
			if slices.Contains(broken, true) {
				want = badChain
			}
			assert.Equal(t, want, verdictOf(t, tr.want, f), "%s, %s", e.name, tr.name)
			for i, l := range tr.want.ledgers {
				want := chainKept
				if broken[i] {
					want = chainBroken
				}
				assert.Equal(t, want, shown(t, f, l.name, here(4, ofItem)), "%s, %s", e.name, tr.name)
			}
		})
	}
}

func TestTheOtherChecksTurnRedToo(t *testing.T) {
	study := example(t, "cold-store")
	sound := plainly(t, "cold-store", study)
	ledger := sound.want.ledgers[0]
	input, control := sound, sound
	input.name, input.inputs = badInput, map[string]string{"study_discount_rate": "-0.6"}
	control.name, control.broken = badControl, here(ledger.first+1, ofPV)
	for _, e := range engines {
		e.run(t, []trial{input, control}, func(tr trial, f *excelize.File) {
			assert.Equal(t, tr.name, verdictOf(t, tr.want, f), e.name)
		})
	}
}

// An answer that does not hold is not read as one: it turns red with the verdict.
func TestTheAnswerTurnsRedWithTheVerdict(t *testing.T) {
	b := plainly(t, "cold-store", example(t, "cold-store")).want
	verdict := b.verdictAt()
	require.NotEmpty(t, verdict)
	condition := fmt.Sprintf(`LEFT($A$%s,6)="CHECK:"`, verdict[1:])
	var red []string
	for _, a := range b.answer.alerts {
		require.Equal(t, condition, a.condition)
		for row := a.row; row <= a.lastRow; row++ {
			red = append(red, here(row, 1))
		}
	}
	for r, line := range b.answer.cells {
		if len(line) > 0 && line[0].style.look == answer {
			assert.Contains(t, red, here(r+1, 1))
		}
	}
	assert.Contains(t, red, verdict)
	assert.Greater(t, len(red), 1)
}
