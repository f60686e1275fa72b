package eligibility

// Mark says how strong the source of a rule is.
type Mark uint8

// The marks, from the strongest. The last two never decide.
const (
	Published      Mark = iota // the figure was read in a named code, standard or report
	CommonPractice             // trade texts agree; no single authority
	SingleSource               // one guide or maker
	Recall                     // named from memory; verify before relying on it
)

var markNames = [...]string{"published", "common practice", "single source", "recall"}

// String gives the words that tables show.
func (m Mark) String() string { return markNames[m] }

// Verdict is what a rule says of an option. The zero value is Open: a verdict
// that nobody gave is not a pass.
type Verdict uint8

// The verdicts.
const (
	Open         Verdict = iota // a finding is missing
	Pass                        // the findings keep the rule
	Fail                        // the findings break it
	Advice                      // worth knowing; decides nothing
	NotConcerned                // the rule does not speak of such a work or roof
)

// Need is a finding that is missing.
type Need struct {
	What string // the finding: "the number of roof coverings"
	Next string // how to find it out: "cut a core down to the deck and count"
	Who  string // who usually does: "a roof consultant"
}

// Outcome is a verdict with its reasons.
type Outcome struct {
	Verdict Verdict
	Says    string   // one sentence with the finding in it
	Needs   []Need   // of Open and no other: what is missing, at least one
	From    []string // sources of the findings it rests on, each once; may be empty
}

// Rule is one rule of eligibility.
type Rule struct {
	ID     string // stable, of lower-case words joined by hyphens
	Title  string // the rule as a sentence
	Source string // with edition and section, or what kind of texts
	Mark   Mark
	Works  []Work // that it speaks of
	// Judge is called for those works only. A finding more may turn Open into
	// another verdict, and must never turn another verdict into anything else.
	Judge func(Findings, Option) Outcome
}

// Applies tells whether the rule speaks of a work.
func (r Rule) Applies(w Work) bool {
	for _, of := range r.Works {
		if of == w {
			return true
		}
	}
	return false
}

// evidence is a finding that an outcome rests on.
type evidence interface{ Source() string }

// outcome makes an outcome that rests on findings.
func outcome(v Verdict, says string, on []evidence) Outcome {
	out := Outcome{Verdict: v, Says: says}
	for _, e := range on {
		out.From = appendNew(out.From, e.Source())
	}
	return out
}

func pass(says string, on ...evidence) Outcome   { return outcome(Pass, says, on) }
func fail(says string, on ...evidence) Outcome   { return outcome(Fail, says, on) }
func advise(says string, on ...evidence) Outcome { return outcome(Advice, says, on) }
func unconcerned(says string, on ...evidence) Outcome {
	return outcome(NotConcerned, says, on)
}

// open says what is missing. says may be "" when there is nothing more to say.
func open(says string, needs ...Need) Outcome {
	if says == "" {
		says = notKnown(needs)
	}
	return Outcome{Verdict: Open, Says: says, Needs: needs}
}

// all is what several conditions come to together: one that fails decides,
// else one that is open.
func all(parts ...Outcome) Outcome {
	verdict := Pass
	for _, p := range parts {
		if p.Verdict == Fail || p.Verdict == Open && verdict != Fail {
			verdict = p.Verdict
		}
	}
	out := Outcome{Verdict: verdict}
	var says []string
	for _, p := range parts {
		if p.Verdict != verdict {
			continue
		}
		says = append(says, p.Says)
		for _, n := range p.Needs {
			out.Needs = appendNew(out.Needs, n)
		}
		for _, s := range p.From {
			out.From = appendNew(out.From, s)
		}
	}
	out.Says = joined(says)
	return out
}

// appendNew appends what is neither zero nor there already.
func appendNew[T comparable](list []T, x T) []T {
	var none T
	if x == none {
		return list
	}
	for _, y := range list {
		if x == y {
			return list
		}
	}
	return append(list, x)
}
