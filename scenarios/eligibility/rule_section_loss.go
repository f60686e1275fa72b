package eligibility

var sectionLoss = Rule{
	ID:     "section-loss",
	Title:  "metal panels that deep rust or rust from below has thinned are replaced, not coated",
	Source: "Navy maintenance manual MO-322, 8.3.3", // [MO322]
	Mark:   Published,
	Works:  []Work{Restore},
	Judge:  func(f Findings, o Option) Outcome { return ofMetal(f, o, judgeSectionLoss) },
}

func judgeSectionLoss(f Findings, o Option) Outcome {
	thinned, known := f.SectionLoss.Get()
	switch {
	case !known:
		return open("", needSectionLoss)
	case !thinned:
		return pass("what rust there is lies on the surface", f.SectionLoss)
	}
	return judgePanels("rust has thinned panels", f.SectionLoss, o)
}
