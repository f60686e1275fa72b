package eligibility

var perforatedPanels = Rule{
	ID:     "perforated-panels",
	Title:  "metal panels that are rusted through are replaced, not coated",
	Source: "trade texts, which agree; no share of rust beyond which a roof is not coated was found",
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  func(f Findings, o Option) Outcome { return ofMetal(f, o, judgePerforated) },
}

// ofMetal asks a rule of metal roofs only.
func ofMetal(f Findings, o Option, judge func(Findings, Option) Outcome) Outcome {
	covering, known := f.Covering.Get()
	switch {
	case !known:
		return open("", needCovering)
	case !covering.metal():
		return unconcerned("the existing covering is "+coveringNames[covering]+", not metal", f.Covering)
	}
	return judge(f, o)
}

func judgePerforated(f Findings, o Option) Outcome {
	rust, known := f.Rust.Get()
	switch {
	case !known:
		return open("", needRust)
	case rust.Perforated.IsZero():
		return pass("no panel is rusted through", f.Rust)
	}
	through := beside(rust.Perforated, nothing, percent) + " of the roof's metal is rusted through"
	return judgePanels(through, f.Rust, o)
}

// judgePanels asks that panels found bad are replaced.
func judgePanels(found string, on evidence, o Option) Outcome {
	switch {
	case yes(o.PanelsReplaced):
		return pass(found+", and a cost line replaces those panels", on, o.PanelsReplaced)
	case no(o.PanelsReplaced):
		return fail(found+", and no cost line replaces those panels", on, o.PanelsReplaced)
	}
	return open(found, needPanels)
}
