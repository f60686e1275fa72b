package scenarios

import (
	"slices"

	"roofyears/lcc"
)

// agesFrom are the words for what starts the ageing of a cost.
var agesFrom = []string{"renewal", "installation"}

// items reads a list of cost items. The key says what kind they are.
func (s *section) items(key, system string, category lcc.Category) []lcc.Item {
	var out []lcc.Item
	for i, n := range s.list(key, maxItems) {
		if item, ok := s.r.item(n, entry(s.sub(key), i), key, system, category); ok {
			out = append(out, item)
		}
	}
	return out
}

// item reads one cost item; not ok when it is no mapping.
func (r *reader) item(n *node, path, key, system string, category lcc.Category) (lcc.Item, bool) {
	it := lcc.Item{Category: category, Price: lcc.NoRef, Quantity: lcc.NoRef, Growth: lcc.NoRef}
	s, ok := r.section(n, path, inItem, itemKeys)
	if !ok {
		return it, false
	}
	it.Name, it.Source = s.needLine("item"), s.line("source")
	it.Tax = s.treatmentOf(keyTreatment)
	if c := s.word("category", lcc.CategoryNames()); c >= 0 {
		it.Category = lcc.Category(c)
	}
	about := subject{of: system, label: it.Name, source: it.Source}
	if key == "costs" {
		about.label = labelRecoat(it.Name)
	}
	s.price(&it, about)
	s.ageing(&it, about, key == "annual_costs" || key == "periodic_costs")
	switch {
	case key == "periodic_costs":
		it.Every, _ = s.whole("every", 1, maxEvery, labelEvery(system, it.Name))
	case s.has("every"):
		r.fail(s.place("every"), path, everyElsewhere())
	}
	return it, true
}

// price reads an amount, or a unit price and what it is per. The subject's
// label names the item.
func (s *section) price(it *lcc.Item, about subject) {
	switch {
	case s.has("amount") && s.has("unit_price"):
		s.r.fail(s.place("unit_price"), s.path, amountAndPrice())
		return
	case s.has("amount"):
		if s.has("per") {
			s.r.fail(s.place("per"), s.path, amountPer())
		}
		if v := s.get("amount"); v != nil {
			about.path, about.label = s.sub("amount"), labelAmount(about.label)
			it.Price = s.r.estimate(v, amount, about)
		}
		return
	case !s.has("unit_price"):
		s.lacks(noPrice(), "amount", "unit_price")
		s.line("per")
		return
	}
	about.path, about.label = s.sub("unit_price"), labelPrice(about.label)
	if q := s.quantity(); q != nil {
		it.Quantity = q.ref
		about.unitText = perUnit(q.unit)
	}
	if v := s.get("unit_price"); v != nil {
		it.Price = s.r.estimate(v, unitPrice, about)
	}
}

// quantity reads what a unit price is per; nil when that is wrong.
func (s *section) quantity() *measured {
	if !s.has("per") {
		s.lacks(perMissing(), "per")
		return nil
	}
	return s.quantityOf("per")
}

// quantityOf finds the quantity that a key names; nil when there is none.
func (s *section) quantityOf(key string) *measured {
	name := s.line(key)
	if name == "" || s.r.quantities["area"] == nil { // without it, the roof was told already
		return nil
	}
	q := s.r.quantities[name]
	if q == nil {
		names := make([]string, 0, len(s.r.quantities))
		meant := ""
		if !s.r.full() {
			for name := range s.r.quantities {
				names = append(names, name)
			}
			slices.Sort(names)
			if meant = nearest(name, names); meant == "" && isAreaUnit(name, s.r.study.About.AreaUnit) {
				meant = "area"
			}
		}
		s.r.fail(s.values[key].place, s.sub(key), noSuchQuantity(name, names, meant))
		return nil
	}
	q.used = true
	return q
}

// ageing reads growth with age, which running costs alone may have.
func (s *section) ageing(it *lcc.Item, about subject, running bool) {
	v := s.get("growth")
	switch {
	case !running && s.has("growth"):
		s.r.fail(s.place("growth"), s.path, growthElsewhere("growth"))
		return
	case !running && s.has("age_from"):
		s.r.fail(s.place("age_from"), s.path, growthElsewhere("age_from"))
		return
	case !s.has("growth") && s.has("age_from"):
		s.r.fail(s.place("age_from"), s.path, ageWithoutGrowth())
	}
	it.KeepsAge = s.word("age_from", agesFrom) == 1
	if v != nil {
		about.path, about.label, about.source = s.sub("growth"), labelGrowth(about.label), ""
		it.Growth = s.r.estimate(v, rate, about)
	}
}
