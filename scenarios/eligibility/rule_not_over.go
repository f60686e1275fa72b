package eligibility

var notRoofedOver = Rule{
	ID:     "not-over-tile",
	Title:  "slate, clay, cement and asbestos-cement tile are not roofed over",
	Source: "International Building Code 2012, 1510.3 and its exceptions 1 and 2; International Existing Building Code, 705.3.1 and 705.4 on wood shakes", // [IBC2012, IEBC]
	Mark:   Published,
	Works:  []Work{Recover},
	Judge:  judgeNotOver,
}

func judgeNotOver(f Findings, o Option) Outcome {
	covering, known := f.Covering.Get()
	if yes(o.SeparateSystem) {
		return pass("the new roof is a separate system that carries its load to the structure, which may go over any covering", o.SeparateSystem)
	}
	if !known {
		return open("", needCovering)
	}
	is := "the existing covering is " + coveringNames[covering]
	switch covering {
	case Slate, ClayTile, ConcreteTile, AsbestosCement:
		if no(o.SeparateSystem) {
			return fail(is+", and what is planned is no separate system", f.Covering, o.SeparateSystem)
		}
		return open(is+", so only a separate system may go over it", needSeparate)
	case WoodShake:
		return open(is+", which some editions bar and others allow under conditions", needWoodShake)
	case OtherCovering:
		return open(is, needCovering)
	}
	return pass(is+", which may be roofed over", f.Covering)
}
