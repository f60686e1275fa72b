package coating

import (
	"cmp"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// Order is paint in whole packs.
type Order struct {
	Packs  decimal.Decimal // a whole number, 0 or more
	Volume units.Value     // of all packs, in the unit of a pack
	Over   units.Value     // what is left over, 0 or more and less than a pack, in the same unit
}

// RoundUp orders a volume of paint, 0 or more, in packs of one size, such as
// 5 gal or 55 gal: as few whole packs as hold it. A need that exceeds whole
// packs by less than 10^−24 of a pack is taken for them.
func RoundUp(need, pack units.Value) (Order, error) {
	size, errPack := above("pack", pack, units.Litre)
	litres, errNeed := atLeastZero("paint needed", need, units.Litre)
	if err := cmp.Or(errPack, errNeed); err != nil {
		return Order{}, err
	}
	packs := ceil(units.Quotient(litres, size))
	same, err := need.To(pack.Unit)
	if err != nil {
		return Order{}, err
	}
	volume := packs.Mul(pack.Number)
	over := decimal.Max(volume.Sub(same.Number), decimal.Zero)
	return Order{packs, units.Of(volume, pack.Unit), units.Of(over, pack.Unit)}, nil
}
