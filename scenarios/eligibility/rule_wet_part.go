package eligibility

var wetPart = Rule{
	ID:     "wet-part",
	Title:  "wet parts are cut out and replaced before a roof is coated",
	Source: "two contractors' and owners' guides", // [wet25]
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  judgeWetPart,
}

func judgeWetPart(f Findings, o Option) Outcome {
	share, known := f.WetShare.Get()
	switch {
	case !known:
		return open("", needWetShare)
	case share.IsZero():
		return pass("no part of the roof is wet", f.WetShare)
	}
	wet := beside(share, nothing, percent) + " of the roof area is wet"
	switch {
	case yes(o.WetPartReplaced):
		return pass(wet+", and a cost line replaces it", f.WetShare, o.WetPartReplaced)
	case no(o.WetPartReplaced):
		return fail(wet+", and no cost line replaces it", f.WetShare, o.WetPartReplaced)
	}
	return open(wet, needWetPart)
}
