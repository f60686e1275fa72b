package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/scenarios/coating"
	"roofyears/scenarios/units"
)

// material reads what a step takes: paint for a film, compound by its spreading
// rate, or as much as the quantity itself.
func (w *working) material(s *section) {
	m := &takeoff.Material{Name: s.needLine("name"), Colour: s.line("colour"), Needed: lcc.NoRef, Bought: lcc.NoRef, Price: lcc.NoRef}
	w.step.Material = m
	volume, pack := w.own(units.Volumes), paintPack
	switch {
	case s.has("film") && s.has("covers"):
		w.fail(s.place("covers"), s.path, filmAndCovers())
		return
	case s.has("film"):
		m.Coat = w.film(s, m, volume)
	case s.has("covers"):
		w.covers(s, m, volume)
	default:
		m.Needed, volume, pack = w.done.ref, w.done.unit, quantPack
	}
	if m.Coat == nil {
		w.refuse(s, []string{"solids", "loss", "extra"}, filmForgotten)
	}
	m.Bought = w.bought(s, m, volume, pack)
	w.price(s, m, volume)
}

// about names an input of the material.
func (w *working) about(s *section, m *takeoff.Material, key, label string) subject {
	return subject{path: s.sub(key), of: w.system.Name, label: w.step.Name + ": " + m.Name + ", " + label, source: w.source}
}

// refuse tells keys that stand where they mean nothing.
func (w *working) refuse(s *section, keys []string, told func(key string) message) {
	for _, key := range keys {
		if s.has(key) && !s.has("film") {
			w.fail(s.place(key), s.path, told(key))
		}
	}
}

// film reads a coat, and derives the wet film to aim for and the paint that it
// takes: area × film ÷ solids ÷ (1 − loss), or × (1 + extra).
func (w *working) film(s *section, m *takeoff.Material, volume string) *takeoff.Coat {
	if w.done.unit != "ft2" && w.done.unit != "m2" {
		w.fail(s.place("film"), s.path, filmOverNoArea(w.over))
		return nil
	}
	mils := w.own(units.Films)
	c := &takeoff.Coat{Dry: lcc.NoRef, Solids: lcc.NoRef, Loss: lcc.NoRef, Extra: lcc.NoRef}
	if v := s.get("film"); v != nil {
		c.Dry = w.estimateIn(v, film, mils, w.about(s, m, "film", "dry film"))
	}
	c.Solids = w.share(s, m, s.need("solids"), "solids", "volume solids", solids)
	switch {
	case s.has("loss") && s.has("extra"):
		w.fail(s.place("extra"), s.path, lossAndExtra())
	case s.has("loss"):
		c.Loss = w.share(s, m, s.get("loss"), "loss", "share that makes no film", loss)
	case s.has("extra"):
		c.Extra = w.share(s, m, s.get("extra"), "extra", "extra paint", extraPaint)
	}
	wet := product(unity, "", c.Dry).by(c.Solids, lcc.Over)
	c.Wet = w.deriveOf(s, m, "wet_film", "wet film", mils, zero, wet)
	m.Needed = w.deriveOf(s, m, "needed", "needed", volume, zero, w.paint(s, c, mils, volume)...)
	w.coats = append(w.coats, coat{w.over, m.Colour, c.Dry, w.s.has("wait"), s.at, s.path})
	return c
}

// paint is the volume of a coat, by the constant of scenarios/coating.
func (w *working) paint(s *section, c *takeoff.Coat, mils, volume string) []part {
	pure := coating.Paint{Solids: unity}
	one, err := pure.Volume(units.Of(unity, units.Unit(w.done.unit)), units.Of(unity, units.Unit(mils)), units.Unit(volume))
	if err != nil {
		w.fail(s.at, s.path, message{what: err.Error()})
		return nil
	}
	plain := product(one.Number, "", w.done.ref, c.Dry).by(c.Solids, lcc.Over)
	switch {
	case s.has("loss"):
		return []part{plain.by(c.Loss, lcc.OverRest)}
	case s.has("extra"):
		return []part{plain, plain.times(c.Extra)}
	}
	return []part{plain}
}

func (w *working) share(s *section, m *takeoff.Material, v *node, key, label string, k measure) lcc.Ref {
	if v == nil {
		return lcc.NoRef
	}
	about := w.about(s, m, key, label)
	about.unitText = percentText
	return w.estimate(v, k, about)
}

// covers reads a spreading rate and derives what the quantity takes.
func (w *working) covers(s *section, m *takeoff.Material, volume string) {
	v := s.get("covers")
	if v == nil {
		return
	}
	unit := "pieces/" + volume
	if w.done.unit != "" {
		unit = w.done.unit + "/" + volume
	}
	rate := w.estimateIn(v, covers(w.done.unit), unit, w.about(s, m, "covers", "spreading rate"))
	m.Needed = w.deriveOf(s, m, "needed", "needed", volume, zero, product(unity, "", w.done.ref).by(rate, lcc.Over))
}

// bought derives what is paid for: whole packs, where it is sold in packs.
func (w *working) bought(s *section, m *takeoff.Material, unit string, k measure) lcc.Ref {
	v, ok := w.plain(s.get("pack"), s.sub("pack"), k)
	if !ok {
		return m.Needed
	}
	if units.Unit(v.unit).Dimension() != units.Unit(unit).Dimension() {
		w.fail(s.values["pack"].place, s.sub("pack"), packOfOther(s.values["pack"].text, unit))
		return lcc.NoRef
	}
	if v.unit != unit {
		w.suspect(s.values["pack"].place, s.sub("pack"), packInOther(s.values["pack"].text, unit, w.done.unit))
	}
	m.Pack = convert(v.value, v.unit, unit)
	return w.deriveOf(s, m, "bought", "bought in whole packs", unit, m.Pack, product(unity, "", m.Needed))
}

// price reads the price of a unit of what is bought, and adds the cost line.
func (w *working) price(s *section, m *takeoff.Material, unit string) {
	v := s.need("price")
	if v == nil {
		return
	}
	name := w.step.Name + ": " + m.Name
	if m.Colour != "" {
		name += ", " + m.Colour
	}
	m.Price = w.estimate(v, unitPrice, subject{s.sub("price"), w.system.Name, labelPrice(name), perUnit(unit), w.source})
	w.cost(name, m.Price, m.Bought)
}

func (w *working) deriveOf(s *section, m *takeoff.Material, key, label, unit string, pack decimal.Decimal, parts ...part) lcc.Ref {
	about := w.about(s, m, key, label)
	return w.derive(lcc.Input{Path: about.path, Of: about.of, Label: about.label, Unit: kindOf(unit), UnitText: unit}, s.at, pack, parts...)
}
