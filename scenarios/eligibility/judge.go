package eligibility

// Judgement is what one rule says of one option.
type Judgement struct {
	Rule Rule
	Outcome
}

// Judge puts every rule to an option, in the order of [Rules]. Findings and
// option must be sound ([Findings.Check], [Option.Check]).
func Judge(f Findings, o Option) []Judgement {
	rules := Rules()
	out := make([]Judgement, len(rules))
	for i, r := range rules {
		out[i] = Judgement{Rule: r, Outcome: r.judge(f, o)}
	}
	return out
}

// judge asks the rule if it speaks of such a work.
func (r Rule) judge(f Findings, o Option) Outcome {
	switch {
	case o.Work == "":
		return open("", needWork)
	case !r.Applies(o.Work):
		return unconcerned(otherWork(r, o.Work))
	}
	return r.Judge(f, o)
}

// Standing is what the rules come to for one option.
type Standing struct {
	// Eligible is true when no rule fails. It is no permit: as long as anything
	// is open, the option is not shown to be allowed, only not ruled out.
	Eligible bool
	Against  []Judgement // the rules that fail, each with its source and finding
	Open     []Judgement // the rules that lack a finding
	Passed   []Judgement
	Advice   []Judgement
	Next     []Need // what to find out next, each once, in the order of the rules
}

// Eligible sorts the judgements of an option; those that do not concern it are
// left out. See [Judge].
func Eligible(f Findings, o Option) Standing {
	s := Standing{}
	for _, j := range Judge(f, o) {
		switch j.Verdict {
		case Fail:
			s.Against = append(s.Against, j)
		case Open:
			s.Open = append(s.Open, j)
		case Pass:
			s.Passed = append(s.Passed, j)
		case Advice:
			s.Advice = append(s.Advice, j)
		}
		for _, n := range j.Needs {
			s.Next = appendNew(s.Next, n)
		}
	}
	s.Eligible = len(s.Against) == 0
	return s
}
