package scenarios

import (
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// working is the reading of one step.
type working struct {
	*takingOff
	s        *section
	system   *lcc.System
	step     takeoff.Step
	source   string
	category lcc.Category
	tax      int       // treatment, as of an item
	over     string    // key of the quantity
	done     *measured // nil when there is none
}

// step reads one piece of work and adds what it costs to the first costs.
func (t *takingOff) step(s *section, y *lcc.System) takeoff.Step {
	w := &working{takingOff: t, s: s, system: y, category: lcc.Construction}
	w.step = takeoff.Step{Name: s.needLine("step"), Over: lcc.NoRef, Labour: lcc.NoRef, Note: s.line("note")}
	if name := w.step.Name; name != "" && t.names[strings.ToLower(name)] {
		t.fail(s.values["step"].place, s.sub("step"), nameTwice(name, "step"))
	}
	t.names[strings.ToLower(w.step.Name)] = true
	w.source, w.tax = s.line("source"), s.treatmentOf(keyTreatment)
	if c := s.word("category", lcc.CategoryNames()); c >= 0 {
		w.category = lcc.Category(c)
	}
	if v, ok := t.plain(s.get("wait"), s.sub("wait"), hours); ok {
		w.step.Wait = v.value
	}
	switch {
	case s.has("lump"):
		w.lump()
	case !s.has("over"):
		s.lacks(noWork(), "over", "lump")
	case !s.has("labour") && !s.has("material"):
		s.lacks(noLabour(), "labour", "material")
	default:
		w.work()
	}
	return w.step
}

// lump reads a step that is paid once.
func (w *working) lump() {
	for _, key := range []string{"over", "labour", "material"} {
		if w.s.has(key) {
			w.fail(w.s.place(key), w.s.path, lumpAnd(key))
			return
		}
	}
	if v := w.s.get("lump"); v != nil {
		w.step.Labour = w.estimate(v, amount, subject{w.s.sub("lump"), w.system.Name, labelAmount(w.step.Name), "", w.source})
		w.cost(w.step.Name, w.step.Labour, lcc.NoRef)
	}
}

// work reads a step that is done to a quantity.
func (w *working) work() {
	if w.done = w.s.quantityOf("over"); w.done == nil {
		return
	}
	w.over, w.step.Over = w.s.line("over"), w.done.ref
	if v := w.s.get("labour"); v != nil {
		name := w.step.Name + ": labour"
		w.step.Labour = w.estimate(v, unitPrice, subject{w.s.sub("labour"), w.system.Name, labelPrice(name), perUnit(w.done.unit), w.source})
		w.cost(name, w.step.Labour, w.done.ref)
	}
	if m, ok := w.reader.section(w.s.get("material"), w.s.sub("material"), inMaterial, materialKeys); ok {
		w.material(m)
	}
}

// cost adds a line to the first costs.
func (w *working) cost(name string, price, quantity lcc.Ref) {
	if price == lcc.NoRef {
		return
	}
	w.system.First = append(w.system.First, lcc.Item{
		Name: name, Category: w.category, Price: price, Quantity: quantity, Growth: lcc.NoRef, Source: w.source, Tax: w.tax,
	})
}
