package eligibility

var overSilicone = Rule{
	ID:     "over-silicone",
	Title:  "an existing silicone coating is recoated with silicone, unless a test shows that another coating holds on it",
	Source: "three trade texts: washed silicone takes silicone; no other coating is assumed to stick to it",
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  judgeOverSilicone,
}

func judgeOverSilicone(f Findings, o Option) Outcome {
	existing, known := f.ExistingCoating.Get()
	planned, stated := o.Coating.Get()
	switch {
	case !known:
		return open("", needExisting)
	case existing != Silicone:
		return pass("the existing roof is not coated with silicone", f.ExistingCoating)
	case !stated:
		return open("the existing coating is silicone", needCoating)
	case planned == Silicone:
		return pass("the existing coating is silicone, and so is the planned one", f.ExistingCoating, o.Coating)
	}
	says := "the existing coating is silicone and the planned one " + chemistryNames[planned] + ", which is not assumed to stick"
	out := judgeAdhesion(f, o)
	out.Says = joined([]string{says, out.Says})
	return out
}
