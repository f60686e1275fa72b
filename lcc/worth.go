package lcc

// Lives gives the service life of the nth installation (from 0) of a system,
// or of its nth recoat, by slot (see Walk.Slot), within one alternative. It is
// greater than 0.
type Lives interface {
	Life(slot, nth int) float64
}

// LCC is the unrounded life-cycle cost of an alternative at the loaded vector.
func (k *Kernel) LCC(alternative int) float64 { return k.LCCWith(alternative, k) }

// Life gives the loaded life of a slot, the same for every installation.
func (k *Kernel) Life(slot, _ int) float64 { return k.life[slot] }

// WholeLife is the loaded life of a slot in whole years, rounded up.
func (k *Kernel) WholeLife(slot int) int { return k.whole[slot] }

// LCCWith is LCC with lives of one's own: a simulation draws one for each
// installation. Only lives that the study period leaves room for are asked.
func (k *Kernel) LCCWith(alternative int, lives Lives) float64 {
	k.Refresh()
	clear(k.count)
	total := 0.0
	w := &k.walk
	w.restart(k.study, alternative)
	for {
		slot, more := w.Slot()
		if !more {
			return total
		}
		life := lives.Life(slot, k.count[slot])
		k.count[slot]++
		total += k.spellWorth(w.Next(ceilYears(life)), life)
	}
}

// ceilYears is a life in whole years, as wholeYears.
func ceilYears(life float64) int {
	if life > MaxPeriod {
		return MaxPeriod + 1
	}
	whole := int(life)
	if float64(whole) < life {
		whole++
	}
	return whole
}

// spellWorth is the present value of everything that a spell pays; see
// bookkeeper.spell.
func (k *Kernel) spellWorth(p *Spell, life float64) float64 {
	y := &k.plan.systems[p.System]
	total := 0.0
	switch p.Begin {
	case Installed:
		total += k.onceWorth(y.first, p.From)
	case Recoated:
		total += k.onceWorth(y.recoat, p.From)
	}
	for i := range y.annual {
		b := &y.annual[i]
		switch {
		case b.growth == nil:
			total += float64(k.amounts[b.at] * (b.sum[p.Until] - b.sum[p.From]))
		case b.more != nil && p.Until > p.From:
			total += float64(k.amounts[b.at] * b.running[p.From+1] * (1 + b.more[p.Until-p.From-1]))
		default:
			total += float64(k.amounts[b.at] * growingWorth(b, p))
		}
	}
	for i := range y.periodic {
		total += float64(k.amounts[y.periodic[i].at] * periodicWorth(&y.periodic[i], p))
	}
	switch p.End {
	case ToNext:
		total += k.onceWorth(y.removal, p.Until)
	case AtHorizon:
		total -= k.residualWorth(p, life, y)
	}
	return total
}

func (k *Kernel) onceWorth(bundles []bundle, year int) float64 {
	total := 0.0
	for i := range bundles {
		total += float64(k.amounts[bundles[i].at] * bundles[i].once[year])
	}
	return total
}

// growingWorth is a unit paid in every year of a spell, growing with age; see
// Spell.ageOrigin.
func growingWorth(b *bundle, p *Spell) float64 {
	if p.Until == p.From {
		return 0
	}
	worth := 0.0
	if g := b.growth; g.worth.constant() {
		worth = b.running[p.From+1] * (1 + g.more[p.Until-p.From-1])
	} else {
		worth = g.years(b.running[p.From+1 : p.Until+1])
	}
	if b.keepsAge {
		worth *= b.growth.aged[p.From-p.Install]
	}
	return worth
}

func periodicWorth(b *bundle, p *Spell) float64 {
	total, origin := 0.0, p.From
	if b.keepsAge {
		origin = p.Install
	}
	for year := p.firstPeriodic(b.every); year <= p.periodicEnd(); year += b.every {
		if b.growth == nil {
			total += b.running[year]
		} else {
			total += float64(b.growth.aged[year-origin-1] * b.running[year])
		}
	}
	return total
}

// residualWorth is the value left at the end; see bookkeeper.residual.
func (k *Kernel) residualWorth(p *Spell, life float64, y *systemPlan) float64 {
	n := k.study.Period
	switch y.residual.Mode {
	case FixedAmount:
		return k.v[y.residual.Amount] * k.plan.tables[0].once[n]
	case NoResidual:
		return 0
	}
	unused := life - float64(n-p.From)
	if unused <= 0 || p.Begin == Kept {
		return 0
	}
	paid := y.firstBears
	if p.Begin == Recoated {
		paid = y.recoatBears
	}
	if paid == nil {
		return 0
	}
	// Paid at the prices of year From, worth something in year N.
	return k.amounts[paid.at] * paid.once[p.From] * unused / life * k.plan.carried[n-p.From]
}

// whole is x^n for n ≥ 0, by squaring: no more roundings than n.
func whole(x float64, n int) float64 {
	result := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			result *= x
		}
		x *= x
	}
	return result
}
