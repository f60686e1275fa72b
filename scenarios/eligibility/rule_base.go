package eligibility

var notABase = Rule{
	ID:     "base",
	Title:  "a roof that is water soaked, or too deteriorated to build on, is not roofed over",
	Source: "International Building Code 2012, 1510.3 and its exception 1 for a separate system", // [IBC2012]
	Mark:   Published,
	Works:  []Work{Recover},
	Judge:  func(f Findings, o Option) Outcome { return all(judgeSoaked(f, o), judgeSound(f, o)) },
}

// judgeSoaked looks at the water. The exception for a separate system does not
// rest on the old roof, but would shut its water in: that is left open.
func judgeSoaked(f Findings, o Option) Outcome {
	soaked, known := f.WaterSoaked.Get()
	switch {
	case !known:
		return open("", needSoaked)
	case !soaked:
		return pass("the existing roof is not water soaked", f.WaterSoaked)
	case yes(o.WetPartReplaced):
		return pass("the existing roof is water soaked, and a cost line replaces the wet part first", f.WaterSoaked, o.WetPartReplaced)
	}
	const says = "the existing roof is water soaked"
	switch {
	case !o.WetPartReplaced.IsKnown():
		return open(says, needWetPart)
	case yes(o.SeparateSystem):
		return open(says+", and the separate system would close over it", needTrapped)
	case no(o.SeparateSystem):
		return fail(says+", and no cost line replaces the wet part", f.WaterSoaked, o.WetPartReplaced, o.SeparateSystem)
	}
	return open(says, needSeparate)
}

// judgeSound looks at the rest of the old roof, on which a separate system
// does not rely.
func judgeSound(f Findings, o Option) Outcome {
	sound, known := f.BaseSound.Get()
	switch {
	case yes(o.SeparateSystem):
		return pass("the new roof is a separate system that does not rely on the old one", o.SeparateSystem)
	case !known:
		return open("", needBase)
	case sound:
		return pass("the existing roof is sound enough to build on", f.BaseSound)
	case no(o.SeparateSystem):
		return fail("the existing roof is too deteriorated to build on", f.BaseSound, o.SeparateSystem)
	}
	return open("the existing roof is too deteriorated to build on, so only a separate system may go over it", needSeparate)
}
