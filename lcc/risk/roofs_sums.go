package risk

// roofSums adds up what roofs cost, trial by trial, in whole minor units of
// the currency: whole numbers come to the same sum in whatever order roofs are
// added. The error of half a unit a roof is nothing beside a roof.
type roofSums struct {
	sums     []int64 // by trial, then by series
	series   int
	roofs    int
	ruledOut []int // by alternative: for how many roofs
	chosen   []int // by set of choices: how many roofs have one
	over     bool  // a sum is beyond an int64
}

func newRoofSums(r *Roofs) roofSums {
	return roofSums{
		sums: make([]int64, r.options.Trials*r.series()), series: r.series(),
		ruledOut: make([]int, len(r.study.Alternatives)), chosen: make([]int, r.options.Choices),
	}
}

func (s *roofSums) clear() {
	clear(s.sums)
	clear(s.ruledOut)
	clear(s.chosen)
	s.roofs, s.over = 0, false
}

// of are the sums of one trial.
func (s *roofSums) of(trial int) []int64 { return s.sums[trial*s.series : (trial+1)*s.series] }

// count counts a roof that was added.
func (s *roofSums) count(l *lot) {
	s.roofs++
	for a := range s.ruledOut {
		s.ruledOut[a]++
	}
	for _, a := range l.eligible {
		s.ruledOut[a]--
	}
	for c, choice := range l.Choices {
		if choice >= 0 {
			s.chosen[c]++
		}
	}
}

// join adds other sums.
func (s *roofSums) join(o *roofSums) {
	s.over = s.over || o.over
	for i, x := range o.sums {
		before := s.sums[i]
		after := before + x
		s.over = s.over || (before^after)&(x^after) < 0
		s.sums[i] = after
	}
	s.roofs += o.roofs
	for a, n := range o.ruledOut {
		s.ruledOut[a] += n
	}
	for c, n := range o.chosen {
		s.chosen[c] += n
	}
}
