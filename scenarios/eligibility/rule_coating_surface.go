package eligibility

var coatingSurface = Rule{
	ID:     "coating-surface",
	Title:  "a coating does not go on coal-tar pitch, on a membrane worn down to its fabric, or on untreated gravel",
	Source: "a coating bulletin and a trade column, which agree",
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  judgeCoatingSurface,
}

func judgeCoatingSurface(f Findings, _ Option) Outcome {
	surface, known := f.Surface.Get()
	switch {
	case !known:
		return open("", needSurface)
	case surface == SoundSurface:
		return pass("the surface is none of those that no coating holds on", f.Surface)
	}
	return fail("the surface is "+surfaceNames[surface], f.Surface)
}
