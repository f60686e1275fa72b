package budget

import "math"

// barred finds a roof without any option that may be chosen.
func barred(roofs []Roof) Reason {
	for i, roof := range roofs {
		if _, ok := roof.cheapest(); !ok {
			return Reason{Cause: NoOption, Roof: i}
		}
	}
	return Reason{}
}

// cheapest is the sum of each roof's least cost.
func cheapest(roofs []Roof) int64 {
	var sum int64
	for _, roof := range roofs {
		cost, _ := roof.cheapest()
		sum += cost
	}
	return sum
}

// cheapest is the least cost of options that are not barred.
func (r Roof) cheapest() (cost int64, ok bool) {
	for _, o := range r.Options {
		if !o.Barred && (!ok || o.Cost < cost) {
			cost, ok = o.Cost, true
		}
	}
	return cost, ok
}

// yearShort finds the first year whose limit is exceeded whatever is chosen.
func yearShort(roofs []Roof, years []Year) Reason {
	for k, year := range years {
		var needed int64
		for _, roof := range roofs {
			least := int64(math.MaxInt64)
			for _, o := range roof.Options {
				if !o.Barred {
					least = min(least, o.in(year))
				}
			}
			needed += least
		}
		if needed > year.Most {
			return Reason{Cause: YearShort, Roof: -1, Years: []int{k}, Needed: needed}
		}
	}
	return Reason{}
}

// together names the limits that cannot be kept at once. If the relaxation
// proves it by itself, limits without which it still does are left out. Limits
// that ruled out an option by themselves stay: the proof may rest on that.
func (s *search) together(top relaxed) Reason {
	multipliers := append([]float64(nil), top.multipliers...)
	if s.impossible(multipliers) {
		for k, was := range multipliers {
			if multipliers[k] = 0; !s.impossible(multipliers) {
				multipliers[k] = was
			}
		}
	} else {
		for k := range multipliers {
			multipliers[k] = 1
		}
	}
	concerned := append([]bool(nil), s.ruling...)
	for k, multiplier := range multipliers {
		if multiplier > 0 {
			concerned[s.years[k]] = true
		}
	}
	return Reason{Cause: YearsTogether, Roof: -1, Years: places(concerned)}
}

// impossible tells whether the multipliers prove that no plan exists: the
// bound is above what any plan could cost.
func (s *search) impossible(multipliers []float64) bool {
	return s.relax(s.root(), multipliers).bound() > s.most
}

// places lists where a list is true.
func places(list []bool) (at []int) {
	for k, is := range list {
		if is {
			at = append(at, k)
		}
	}
	return at
}
