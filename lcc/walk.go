package lcc

// Begin says how a spell starts, and so what is paid at its start.
type Begin uint8

// The beginnings of a spell.
const (
	Kept      Begin = iota // stands there already: nothing is paid
	Installed              // first costs are paid
	Recoated               // the recoat's costs are paid
)

// End says how a spell ends.
type End uint8

// The endings of a spell.
const (
	AtHorizon End = iota // the study period ends
	ToRecoat             // a recoat follows: the system stays
	ToNext               // the system is left: its removal items are paid
)

// Spell is a stretch of years in which one renewal of one system stands on
// the roof. Spells of an alternative join without gaps from 0 to N; only a
// wait of no years has no length.
type Spell struct {
	System  int // index in Study.Systems
	Install int // year the system was installed (0 when kept): periodic costs count from here
	From    int // year of the renewal that the present life counts from
	Until   int // year of the next intervention, or N
	Slot    int // which life it lives: see Walk.Slot
	Begin   Begin
	End     End
}

// Walk steps through the chain of one alternative. Every evaluator uses it,
// so they agree on what happens when. It is a value, it does not allocate,
// and it asks for lives instead of knowing them: an exact evaluation gives
// the stated life, a simulation may draw one for each installation.
//
//	for w := s.Walk(alt); ; {
//		slot, more := w.Slot()
//		if !more { break }
//		spell := w.Next(wholeYears(slot))
//	}
type Walk struct {
	study   *Study
	wait    *Wait // still to be served
	start   int   // system installed after the wait
	system  int
	install int
	year    int
	recoats int // made on the present installation
	begin   Begin
	done    bool
	spell   Spell // what Next gave last
}

// Walk starts at time 0 of the alternative with the given index.
func (s *Study) Walk(alternative int) Walk {
	var w Walk
	w.restart(s, alternative)
	return w
}

// restart sets a walk to time 0 of an alternative.
func (w *Walk) restart(s *Study, alternative int) {
	a := &s.Alternatives[alternative]
	w.study, w.wait, w.start, w.system = s, a.Wait, a.Start, a.Start
	w.install, w.year, w.recoats, w.begin, w.done = 0, 0, 0, Kept, false
	if a.Wait != nil {
		w.system = a.Wait.On
	} else if !s.Systems[a.Start].InPlace {
		w.begin = Installed
	}
}

// Slot names the life that the next spell needs: 2·system for a system's own
// life, 2·system+1 for the life its recoat gives. It reports false when the
// walk has come to the end of the study period.
func (w *Walk) Slot() (slot int, more bool) {
	if w.done {
		return 0, false
	}
	slot = 2 * w.system
	if w.recoats > 0 {
		slot++
	}
	return slot, true
}

// LifeAt is the input that holds the life of a slot.
func (s *Study) LifeAt(slot int) Ref {
	system := &s.Systems[slot/2]
	if slot%2 == 0 {
		return system.Life
	}
	return system.Recoat.Life
}

// Next gives the next spell; it holds until Next is called again. life is its service life in whole years, rounded
// up: 1 or more. A life of s + L years runs out at year r = s + ceil(L); at
// r ≥ N nothing is made. A wait ends early where the life is shorter than it: a
// simulation may draw such a life, a stated one is refused beforehand.
func (w *Walk) Next(life int) *Spell {
	n := w.study.Period
	slot, _ := w.Slot()
	spell := &w.spell
	spell.System, spell.Install, spell.From, spell.Slot, spell.Begin = w.system, w.install, w.year, slot, w.begin
	if w.wait != nil {
		spell.Until, spell.End = min(w.wait.Years, life), ToNext
		w.wait = nil
		w.put(w.start, spell.Until)
		return spell
	}
	// Compared by subtraction: a life may be as large as an int.
	if life >= n-w.year {
		spell.Until, spell.End = n, AtHorizon
		w.done = true
		return spell
	}
	spell.Until = w.year + life
	system := &w.study.Systems[w.system]
	if system.Recoat != nil && w.recoats < system.Recoat.AtMost {
		spell.End = ToRecoat
		w.recoats++
		w.year, w.begin = spell.Until, Recoated
		return spell
	}
	spell.End = ToNext
	w.put(system.Then, spell.Until)
	return spell
}

// put puts a system on the roof at the given year.
func (w *Walk) put(system, year int) {
	w.system, w.install, w.year, w.recoats, w.begin = system, year, year, 0, Installed
}

// periodicEnd is the last year in which a periodic cost of the spell can
// fall: before the year in which the system is left, and before N; in the
// year of a recoat the system stays, so there it still falls.
func (p *Spell) periodicEnd() int {
	if p.End == ToRecoat {
		return p.Until
	}
	return p.Until - 1
}

// firstPeriodic is the first year after the spell's start at which a cost
// that comes every m years from the installation falls.
func (p *Spell) firstPeriodic(every int) int {
	return p.Install + ((p.From-p.Install)/every+1)*every
}

// ageOrigin is the year from which the age of an item counts.
func (p *Spell) ageOrigin(it *Item) int {
	if it.KeepsAge {
		return p.Install
	}
	return p.From
}
