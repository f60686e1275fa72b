package lcc

import "slices"

// Group is a set of inputs that are set together again and again, with what
// depends on them found once.
type Group struct {
	refs    []Ref
	rates   bool      // one of them is a rate
	lives   bool      // one of them is a life
	feeds   bool      // something is derived from one of them
	bundles []*bundle // whose amounts depend on them
}

// Group finds what depends on some inputs, none of them derived.
func (k *Kernel) Group(refs []Ref) *Group {
	g := &Group{}
	k.Regroup(g, refs)
	return g
}

// Regroup does Group into one that is there, of a kernel of the same plan.
func (k *Kernel) Regroup(g *Group, refs []Ref) {
	*g = Group{refs: append(g.refs[:0], refs...), bundles: g.bundles[:0]}
	for _, r := range refs {
		g.rates = g.rates || k.study.Inputs[r].Unit == Rate
		g.lives = g.lives || k.study.Inputs[r].Unit == Years
		g.feeds = g.feeds || k.feeds[r]
	}
	for b := range k.plan.all {
		if slices.ContainsFunc(refs, b.uses) {
			g.bundles = append(g.bundles, b)
		}
	}
}

// SetGroup does Set for the inputs of a group, one value for each.
func (k *Kernel) SetGroup(g *Group, values []float64) {
	values = values[:len(g.refs)]
	for i, r := range g.refs {
		k.v[r] = values[i]
	}
	if g.rates {
		k.outdateRates()
	}
	if g.lives {
		k.setLives()
	}
	if !k.stale.amounts {
		for _, b := range g.bundles {
			k.sum(b)
		}
	}
	if g.feeds {
		k.rederive()
	}
}
