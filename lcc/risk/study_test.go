package risk

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// builder makes studies without a file.
type builder struct{ s *lcc.Study }

func newBuilder(period int) *builder {
	s := &lcc.Study{Period: period, Inflation: lcc.NoRef}
	s.About = lcc.About{Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	return &builder{s}
}

func (b *builder) fixed(unit lcc.Unit, value string) lcc.Ref {
	return b.s.Add(lcc.Input{Unit: unit, Likely: dec(value)})
}

func (b *builder) three(path string, unit lcc.Unit, low, likely, high string) lcc.Ref {
	return b.s.Add(lcc.Input{Path: path, Unit: unit, Shape: lcc.Triangular, Low: dec(low), Likely: dec(likely), High: dec(high)})
}

func (b *builder) weibull(path, mean, shape string) lcc.Ref {
	return b.s.Add(lcc.Input{Path: path, Unit: lcc.Years, Shape: lcc.Weibull, Likely: dec(mean), Spread: dec(shape)})
}

func (b *builder) item(price, quantity lcc.Ref, c lcc.Category) []lcc.Item {
	return []lcc.Item{{Name: "cost", Category: c, Price: price, Quantity: quantity, Growth: lcc.NoRef}}
}

// threeAlternatives is a 50,000 ft² roof over 40 years: tear off, restore and
// keep patching, with uncertain rates, prices and lives.
func threeAlternatives() *lcc.Study {
	b := newBuilder(40)
	s := b.s
	s.Rate = b.three("rate", lcc.Rate, "0.01", "0.03", "0.07")
	s.Area = b.fixed(lcc.Area, "50000")
	s.Escalation[lcc.Construction] = lcc.Series{b.three("construction", lcc.Rate, "0", "0.01", "0.02")}
	s.Escalation[lcc.Maintenance] = lcc.Series{b.three("maintenance", lcc.Rate, "0", "0.005", "0.01")}
	price := func(path, low, likely, high string) lcc.Ref { return b.three(path, lcc.Price, low, likely, high) }
	s.Systems = []lcc.System{
		{Key: "tear_off", Life: b.weibull("tear_off.life", "22", "5"), Then: 0,
			First:  b.item(price("tear_off.price", "11", "12.5", "15"), s.Area, lcc.Construction),
			Annual: b.item(b.fixed(lcc.Price, "0.10"), s.Area, lcc.Maintenance)},
		{Key: "restoration", Life: b.weibull("restoration.life", "12", "4"), Then: 0,
			First:  b.item(price("restoration.price", "4", "4.8", "6"), s.Area, lcc.Construction),
			Annual: b.item(price("restoration.upkeep", "0.1", "0.15", "0.25"), s.Area, lcc.Maintenance),
			Recoat: &lcc.Recoating{AtMost: 2, Life: b.weibull("recoat.life", "11", "4"),
				Costs: b.item(price("recoat.price", "2", "2.6", "3.4"), s.Area, lcc.Construction)}},
		{Key: "existing", InPlace: true, Life: b.weibull("existing.life", "5", "4"), Then: 0,
			Annual: b.item(b.three("patching", lcc.Money, "6000", "9500", "20000"), lcc.NoRef, lcc.Maintenance)},
	}
	s.Alternatives = []lcc.Alternative{
		{Name: "Tear off", Start: 0}, {Name: "Restore", Start: 1}, {Name: "Keep", Start: 2, BaseCase: true},
	}
	return s
}
