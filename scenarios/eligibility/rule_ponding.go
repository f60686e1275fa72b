package eligibility

var pondingWater = Rule{
	ID:     "ponding",
	Title:  "an acrylic coating does not go where water stands over 48 hours",
	Source: "three trade texts, which agree that acrylic softens and peels under standing water and that silicone tolerates it",
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  judgePonding,
}

func judgePonding(f Findings, o Option) Outcome {
	share, known := f.Ponding.Get()
	switch {
	case !known:
		return open("", needPonding)
	case share.IsZero():
		return pass("no water stands on the roof over 48 hours", f.Ponding)
	}
	stands := "water stands on " + beside(share, nothing, percent) + " of the roof area over 48 hours"
	if yes(o.DrainageCorrected) {
		return pass(stands+", and a cost line drains it", f.Ponding, o.DrainageCorrected)
	}
	return judgeUnderWater(stands, f, o)
}

// judgeUnderWater judges a coating where water may go on standing.
func judgeUnderWater(stands string, f Findings, o Option) Outcome {
	coating, known := o.Coating.Get()
	switch {
	case !known:
		return open(stands, needCoating)
	case coating == Silicone:
		return pass(stands+", which the planned silicone tolerates; drain it all the same", f.Ponding, o.Coating)
	case coating != Acrylic:
		return open(stands+", and the planned coating is "+chemistryNames[coating], needPondingProof)
	case no(o.DrainageCorrected):
		return fail(stands+", under which the planned acrylic softens and peels", f.Ponding, o.Coating, o.DrainageCorrected)
	}
	return open(stands+", under which the planned acrylic softens and peels", needDrainage)
}
