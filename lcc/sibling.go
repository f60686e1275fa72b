package lcc

// Sibling is a kernel for another roof of the study, at the same inputs. It
// shares the tables of factors, which are those of the kernel it was made of
// when that was last refreshed, whatever rates it is given itself: it is for
// the same goroutine, and for roofs without a rate of their own. It gives LCC
// and LCCWith, not Cents.
func (k *Kernel) Sibling() *Kernel {
	out := *k
	out.shares = true
	out.v = append([]float64(nil), k.v...)
	out.amounts = append([]float64(nil), k.amounts...)
	out.whole, out.life = append([]int(nil), k.whole...), append([]float64(nil), k.life...)
	out.count = make([]int, len(k.count))
	out.discount, out.escalate = nil, [NumCategories][]float64{}
	return &out
}

// Follow takes over the inputs of another kernel of the same study.
func (k *Kernel) Follow(other *Kernel) {
	copy(k.v, other.v)
	copy(k.whole, other.whole)
	copy(k.life, other.life)
	k.outdate()
}

// outdate says that all that was made of the vector is to be made again.
func (k *Kernel) outdate() {
	k.outdateRates()
	k.stale.amounts = true
}

// outdateRates says that all that was made of rates is to be made again.
func (k *Kernel) outdateRates() {
	k.stale.cents = true
	if !k.shares {
		k.plan.stale = true
	}
}

// Refresh makes what the loaded vector needs, as asking for a cost does: a
// kernel whose siblings are asked need not be asked itself.
func (k *Kernel) Refresh() {
	if k.plan.stale && !k.shares {
		k.fillWorth()
	}
	if k.stale.amounts {
		k.fillAmounts()
		k.stale.amounts = false
	}
}
