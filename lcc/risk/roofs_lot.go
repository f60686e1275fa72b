package risk

import (
	"slices"

	"roofyears/lcc"
)

// lot is one roof at work: a kernel, and a sampler of its own draws.
type lot struct {
	*Roof
	kernel   *lcc.Kernel
	sibling  *lcc.Kernel // shares the factor tables of the trial
	alone    *lcc.Kernel // has its own; nil until a roof needs it
	sampler  sampler
	eligible []int
	group    lcc.Group // what is drawn and no life: first the common ones
	refs     []lcc.Ref
	values   []float64
	common   []int // where the first values stand among the trial's common draws
	early    []int // where the next stand among what is drawn ahead
	drawn    []int // the inputs of the others
	risk     *RoofRisk
}

func newLot(r *Roofs, lead *lcc.Kernel) *lot {
	l := &lot{sibling: lead.Sibling(), sampler: *r.sampler}
	l.sampler.inputs, l.sampler.slots = slices.Clone(r.sampler.inputs), slices.Clone(r.sampler.slots)
	return l
}

// load sets the lot to a roof whose inputs a kernel holds.
func (l *lot) load(r *Roofs, f *Roof, at *lcc.Kernel, ahead *ahead) {
	l.Roof = f
	l.eligible = l.eligible[:0]
	for a := range r.study.Alternatives {
		if f.Eligible == nil && r.study.Alternatives[a].Eligible() || f.Eligible != nil && f.Eligible[a] {
			l.eligible = append(l.eligible, a)
		}
	}
	l.sample(r, f)
	l.kernel = l.sibling
	if !r.shares(l, f) {
		if l.alone == nil {
			l.alone = r.study.NewKernel()
		}
		l.kernel = l.alone
	}
	l.kernel.Follow(at)
	l.kernel.Refresh()
	l.regroup(r, ahead)
}

// given tells whether a roof has a value of its own for an uncertain input.
func (r *Roofs) given(f *Roof, input int) bool {
	return r.column[input] >= 0 && f.Given[r.column[input]]
}

// sample makes the sampler of a roof. A given value is certain: what would
// move with it is drawn alone, unless all roofs have it in common.
func (l *lot) sample(r *Roofs, f *Roof) {
	for i := range l.sampler.inputs {
		u := &l.sampler.inputs[i]
		*u = r.sampler.inputs[i]
		if r.common[i] {
			continue
		}
		u.source = u.source.local(f.Key)
		if u.parent >= 0 && r.given(f, u.parent) {
			u.parent = -1
		}
	}
	for slot, input := range r.sampler.slots {
		if input >= 0 && r.given(f, input) {
			input = -1
		}
		l.sampler.slots[slot] = input
	}
}

// shares tells whether a roof has all rates in common with the others, and
// with them the factor tables of a trial.
func (r *Roofs) shares(l *lot, f *Roof) bool {
	for i, ref := range r.refs {
		if f.Given[i] && r.study.Inputs[ref].Unit == lcc.Rate {
			return false
		}
	}
	for i := range r.sampler.inputs {
		u := &r.sampler.inputs[i]
		if r.study.Inputs[u.ref].Unit == lcc.Rate && (!r.common[i] || l.sibling.Feeds(u.ref)) {
			return false
		}
	}
	return true
}

// regroup finds what a trial sets. Rates are set where the tables are.
func (l *lot) regroup(r *Roofs, ahead *ahead) {
	l.refs, l.common, l.early, l.drawn = l.refs[:0], l.common[:0], l.early[:0], l.drawn[:0]
	for at, input := range r.shared {
		rate := r.study.Inputs[r.sharing[at]].Unit == lcc.Rate
		if !r.given(l.Roof, input) && (!rate || l.kernel == l.alone) {
			l.refs, l.common = append(l.refs, r.sharing[at]), append(l.common, at)
		}
	}
	for at, draw := range ahead.draws {
		if u := &l.sampler.inputs[draw.input]; !u.life && !r.given(l.Roof, draw.input) {
			l.refs, l.early = append(l.refs, u.ref), append(l.early, at)
		}
	}
	for i := range l.sampler.inputs {
		if u := &l.sampler.inputs[i]; !r.common[i] && !r.alone(i) && !u.life && !r.given(l.Roof, i) {
			l.refs, l.drawn = append(l.refs, u.ref), append(l.drawn, i)
		}
	}
	l.kernel.Regroup(&l.group, l.refs)
	l.values = append(l.values[:0], make([]float64, len(l.refs))...)
}

// trial sets the kernel to a trial's draws, given those that are common and
// those drawn ahead.
func (l *lot) trial(trial int, common, ahead []float64) {
	for i, at := range l.common {
		l.values[i] = common[at]
	}
	own := l.values[len(l.common):]
	for i, at := range l.early {
		own[i] = ahead[at]
	}
	own = own[len(l.early):]
	for i, input := range l.drawn {
		own[i] = l.sampler.draw(trial, input, 0)
	}
	l.kernel.SetGroup(&l.group, l.values)
}
