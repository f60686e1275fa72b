package eligibility

var wetShare = Rule{
	ID:     "wet-share",
	Title:  "a roof that is wet over the threshold is not restored or roofed over, unless the wet part is replaced and priced",
	Source: "usual threshold of 25%: two contractors' and owners' guides, and some local codes as reported in the trade press; a local code governs", // [wet25]
	Mark:   CommonPractice,
	Works:  []Work{Restore, Recover},
	Judge:  judgeWetShare,
}

// judgeWetShare takes the limit itself as kept. The guides say "under" for
// restoring and "above" for replacing; the codes reported say "over".
func judgeWetShare(f Findings, o Option) Outcome {
	share, known := f.WetShare.Get()
	if !known {
		return open("", needWetShare)
	}
	most := f.WetLimit.share()
	wet := beside(share, most, percent) + " of the roof area is wet, "
	threshold := "the " + f.WetLimit.name() + " threshold of " + percent(most)
	switch {
	case share.LessThanOrEqual(most):
		return pass(wet+"not over "+threshold, f.WetShare, f.WetLimit)
	case f.WetLimit.ReplaceAll:
		return fail(wet+"over "+threshold+", beyond which the whole roof is to be replaced", f.WetShare, f.WetLimit)
	case yes(o.WetPartReplaced):
		return pass(wet+"over "+threshold+", and a cost line replaces the wet part", f.WetShare, f.WetLimit, o.WetPartReplaced)
	case no(o.WetPartReplaced):
		return fail(wet+"over "+threshold+", and no cost line replaces the wet part", f.WetShare, f.WetLimit, o.WetPartReplaced)
	}
	return open(wet+"over "+threshold, needWetPart)
}
