package lcc

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// Tie is a value of an input at which two alternatives cost the same, the
// other inputs held: a break-even value.
type Tie struct {
	A, B         int             // indices of the alternatives
	At           decimal.Decimal // in the unit of the input, rounded to tiePlaces
	Below, Above int             // the cheaper of the two below and above; equal where they only touch
	// Step: the costs do not meet, they pass each other in a jump. Work on a
	// roof falls at whole years, so the cost of a life jumps there: At is the
	// longest life before the jump.
	Step bool
	// With Step, what A costs more than B at a life of At, and of a year more;
	// with Near, just below At and just above.
	GapAt, GapNext decimal.Decimal
	// Near: the jump is one of whole packs, or of a life that follows from the
	// input, at just this value.
	Near bool
}

// Crosses tells whether the cheaper alternative changes at the tie.
func (t Tie) Crosses() bool { return t.Below != t.Above }

// tiePlaces is how many decimals a break-even value carries.
const tiePlaces = 12

// amountTies solves a linear difference: no tie, or one. An input that changes
// nothing gives none, even where the two always tie.
func (p probe) amountTies(lo, hi float64) []Tie {
	// Two well separated points, whatever the range asked.
	span := math.Max(1, math.Max(math.Abs(lo), math.Abs(hi)))
	f0 := p.at(0.5 * span)
	noise := p.noise()
	f1 := p.at(1.5 * span)
	slope := (f1 - f0) / span
	if math.Abs(f1-f0) <= max(noise, p.noise()) {
		return nil // shared, or in neither
	}
	x := float64(0.5*span) - f0/slope
	if !(x >= lo && x <= hi) { // nor is one that is no number
		return nil
	}
	return []Tie{tieAt(x, p.a, p.b, -slope, slope)}
}

func tieAt(x float64, a, b int, before, after float64) Tie {
	return Tie{A: a, B: b, At: decimal.NewFromFloat(x).Round(tiePlaces), Below: cheaper(a, b, before), Above: cheaper(a, b, after)}
}

// rateTies finds the roots of a polynomial in 1+rate. Streams are written in
// powers of 1/(1+d), so a rate x that makes amounts grow is looked at as the
// discount rate d = 1/(1+x) − 1 that undoes it.
func (r *Result) rateTies(in Ref, a, b int, lo, hi float64) []Tie {
	if in == r.Study.Rate {
		var out []Tie
		for _, x := range r.difference(a, b).roots(lo, hi) {
			out = append(out, tieAt(x.rate, a, b, x.before, x.after))
		}
		return out
	}
	undo := func(x float64) float64 { return 1/(1+x) - 1 }
	var out []Tie
	for _, x := range r.growthStream(in, a, b).roots(undo(hi), undo(lo)) {
		out = append(out, tieAt(undo(x.rate), a, b, x.after, x.before))
	}
	slices.Reverse(out)
	return out
}

// halfYears are the first n powers of 1/√step, a year's growth undone by the
// half year.
func halfYears(step float64, n int) []float64 {
	out, factor := make([]float64, n), 1/math.Sqrt(step)
	out[0] = 1
	for h := 1; h < n; h++ {
		out[h] = out[h-1] * factor
		if h%2 == 0 { // whole years without the error of the root
			out[h] = out[h-2] / step
		}
	}
	return out
}

// growthStream is the difference of two ledgers' present values by how many
// half years of growth at one rate are in them, that growth taken out.
func (r *Result) growthStream(in Ref, a, b int) stream {
	net, gross := make(stream, 4*r.Study.Period+1), make(stream, 4*r.Study.Period+1)
	undone := halfYears(1+r.Inputs[in].InexactFloat64(), len(net))
	discount := halfYears(1+r.Rate.InexactFloat64(), 2*r.Study.Period+1)
	add := func(o *Outcome, sign float64) {
		for _, line := range o.Ledger {
			h := r.Study.growthIn(in, line)
			worth := float64(line.origin.amount * discount[line.Time] * undone[h])
			net[h] += float64(sign * worth)
			gross[h] += math.Abs(worth)
		}
	}
	add(&r.Alternatives[a], 1)
	add(&r.Alternatives[b], -1)
	for h := range net { // what is nothing but rounding is nothing
		if math.Abs(net[h]) < gross[h]*1e-13 {
			net[h] = 0
		}
	}
	return net
}

// growthIn is how many half years of growth at the rate in a line has.
func (s *Study) growthIn(in Ref, line Line) int {
	o := line.origin
	h := 0
	if o.growth == in {
		h += 2 * o.age
	}
	series := s.Escalation[o.category]
	for i, rate := range series {
		switch {
		case rate != in:
		case len(series) == 1:
			h += int(o.priced)
		default: // the rate of year i+1 alone: all of it, half of it or none
			h += max(0, min(2, int(o.priced-YearEnd(i))))
		}
	}
	if in == s.Inflation && s.Basis == Nominal {
		if len(series) == 0 {
			h += int(o.priced)
		}
		if line.Kind == ResidualValue && o.priced < line.Time { // restated
			h += int(line.Time - o.priced)
		}
	}
	return h
}

// lifeTies goes through the whole years: within one, no work changes its
// year and the difference is α + β/L, by the residual value alone; from one
// to the next it jumps. A life that neither alternative comes to live changes
// nothing, and so gives no tie.
func (p probe) lifeTies(lo, hi float64) []Tie {
	if !p.k.lives(p.a, p.in) && !p.k.lives(p.b, p.in) {
		return nil
	}
	w := lifeWalk{p: p}
	lo = p.limits(lo, hi).from
	if lo == math.Floor(lo) && lo > 0 { // a life of just lo belongs to the year before
		alpha, beta := p.inverse(lo)
		w.reach(lo, p.clear(alpha+beta/lo))
	}
	for year := math.Floor(lo) + 1; year-1 < hi; year++ {
		from, to := math.Max(lo, year-1), math.Min(hi, year)
		alpha, beta := p.inverse(year)
		start, end := p.clear(alpha+beta/math.Max(from, 1e-9)), p.clear(alpha+beta/to)
		w.jump(from, start)
		if start*end < 0 {
			w.found = append(w.found, tieAt(-beta/alpha, p.a, p.b, start, end))
			w.last, w.zero = end, false
		}
		w.reach(to, end)
		if end == 0 && to == hi && beta != 0 { // met at the very end of the range
			w.meet(-start, true)
		}
	}
	return w.found
}

// lifeWalk follows the sign of a difference along a life.
type lifeWalk struct {
	p      probe
	found  []Tie
	last   float64 // the last difference that was not zero; 0 when there was none
	at     float64 // the life at which it was so
	zero   bool    // the difference has been zero since
	met    float64 // the life from which on it has
	jumped bool    // and it came to that in a jump
	near   bool    // see Tie.Near
}

// jump comes to the difference just above a life.
func (w *lifeWalk) jump(life, now float64) {
	switch {
	case now == 0 && !w.zero:
		w.zero, w.met, w.jumped = true, life, w.last != 0 && w.at == life
	case now != 0 && w.zero:
		w.meet(now, false)
	case now*w.last < 0:
		w.step(life, now)
	}
	if now != 0 {
		w.last, w.at, w.zero = now, life, false
	}
}

// reach comes, without a jump, to the difference at a life.
func (w *lifeWalk) reach(life, now float64) {
	switch {
	case now != 0:
		if w.zero {
			w.meet(now, true)
		}
		w.last, w.at, w.zero = now, life, false
	case !w.zero:
		w.zero, w.met, w.jumped = true, life, false
	}
}

// meet ends a stretch in which the two cost the same, smoothly or in a jump.
// Where the difference had the same sign before, it is no crossing; where
// nothing came before, it is one if the range begins at just the life at which
// the two meet on their smooth way.
func (w *lifeWalk) meet(now float64, smooth bool) {
	switch {
	case w.last*now < 0 && w.jumped:
		w.step(w.met, now)
	case w.last*now < 0:
		w.found = append(w.found, tieAt(w.met, w.p.a, w.p.b, w.last, now))
	case w.last == 0 && smooth:
		w.found = append(w.found, tieAt(w.met, w.p.a, w.p.b, -now, now))
	}
}

// step notes that the two pass each other in a jump above a life.
func (w *lifeWalk) step(life, now float64) {
	tie := tieAt(life, w.p.a, w.p.b, w.last, now)
	tie.Step, tie.Near = true, w.near
	if w.near {
		tie.GapAt, tie.GapNext = w.p.beside(life)
	} else {
		tie.GapAt, tie.GapNext = w.p.gap(life), w.p.gap(life+1)
	}
	w.found = append(w.found, tie)
}

// clear takes a difference that is nothing but rounding for zero.
func (p probe) clear(difference float64) float64 {
	if math.Abs(difference) <= p.noise() {
		return 0
	}
	return difference
}

// noise is what of a difference may be nothing but rounding.
func (p probe) noise() float64 {
	return 1e-12 * (math.Abs(p.k.LCC(p.a)) + math.Abs(p.k.LCC(p.b)))
}

// inverse gives α and β of the difference α + β/L for lives that end in the
// given year.
func (p probe) inverse(year float64) (alpha, beta float64) {
	short, long := year-0.5, year
	f0, f1 := p.at(short), p.at(long)
	beta = (f0 - f1) / (1/short - 1/long)
	if math.Abs(f0-f1) <= 1e-12*(math.Abs(f0)+math.Abs(f1)) {
		beta = 0
	}
	return f1 - beta/long, beta
}
