package eligibility

// Judgement is what one rule says of one option.
type Judgement struct {
	Rule Rule
	Outcome
}

// Judge puts every rule to an option, in the order of [Rules]. Whoever reads
// findings and options refuses what is outside the ranges of their fields, and
// words that are not among those of [Words].
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
