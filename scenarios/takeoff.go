package scenarios

import (
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

const maxSteps = 100

// takingOff is the reading of the take-off of one system's first work. Its
// steps are read where that system is, so that its inputs stand together.
type takingOff struct {
	*reader
	*section
	system int // −1 when none of its name is there
	out    takeoff.TakeOff
	coats  []coat // in the order of doing
	names  map[string]bool
}

// coat is a film of the take-off.
type coat struct {
	over   string // key of the quantity
	colour string
	film   lcc.Ref
	wait   bool // a wait is stated
	at     place
	path   string
}

// openTakeOff finds the section; its system is looked for when all keys of
// systems are known.
func (r *reader) openTakeOff(n *node) {
	s, ok := r.section(n, "takeoff", underTakeoff, takeoffKeys)
	if !ok {
		return
	}
	r.takeOff = &takingOff{reader: r, section: s, system: -1, names: map[string]bool{}}
	s.need("for")
	if v := s.need("steps"); v != nil && v.shape == list && len(v.values) == 0 {
		r.fail(v.place, s.sub("steps"), noSteps())
	}
}

func (r *reader) aimTakeOff() {
	if r.takeOff == nil {
		return
	}
	if i, ok := r.systemNamed(r.takeOff.section, "for"); ok {
		r.takeOff.system = i
	}
}

// charge reads the steps, when the system is the one they are for, and adds
// what they cost to its first costs.
func (t *takingOff) charge(y *lcc.System, index int) {
	if t == nil || t.system != index {
		return
	}
	typed := y.First
	t.out.System = index
	for i, n := range t.list("steps", maxSteps) {
		s, ok := t.reader.section(n, entry(t.sub("steps"), i), inStep, stepKeys)
		if !ok {
			continue
		}
		before := len(y.First)
		step := t.step(s, y)
		t.refuseTyped(s, step, typed, y.First[before:])
		t.out.Steps = append(t.out.Steps, step)
	}
	t.settle()
	t.suspectCoats()
}

// refuseTyped tells a first cost that is typed and follows from a step too.
func (t *takingOff) refuseTyped(s *section, step takeoff.Step, typed, derived []lcc.Item) {
	names := []string{step.Name}
	for _, it := range derived {
		names = append(names, it.Name)
	}
	if step.Material != nil {
		names = append(names, step.Material.Name)
	}
	for _, it := range typed {
		for _, name := range names {
			if name != "" && strings.EqualFold(it.Name, name) {
				t.fail(s.at, s.path, typedAndDerived(it.Name))
			}
		}
	}
}

// films are the dry films of the coats over the whole surface; none when the
// take-off is for another system.
func (t *takingOff) films(system int) []lcc.Ref {
	if t == nil || t.system != system {
		return nil
	}
	films := []lcc.Ref{}
	for _, c := range t.coats {
		if c.over == keyCoated {
			films = append(films, c.film)
		}
	}
	return films
}

// suspectCoats tells what is not usual among the coats.
func (t *takingOff) suspectCoats() {
	before := map[string]coat{}
	var whole []coat
	for _, c := range t.coats {
		if b, again := before[c.over]; again && c.colour != "" && strings.EqualFold(c.colour, b.colour) {
			t.suspect(c.at, c.path, sameColour(c.colour, c.over))
		}
		before[c.over] = c
		if c.over == keyCoated {
			whole = append(whole, c)
		}
		if (c.over == "light_rust" || c.over == "scaled_rust") && !c.wait {
			t.suspect(c.at, c.path, noWaitOnRust())
		}
	}
	if len(whole) == 1 {
		t.suspect(whole[0].at, whole[0].path, oneCoat())
	}
}

// takenOff is the take-off with what was measured; nil when there is none.
func (r *reader) takenOff() *takeoff.TakeOff {
	if r.takeOff == nil {
		return nil
	}
	out := r.takeOff.out
	out.Measured = r.measures
	return &out
}
