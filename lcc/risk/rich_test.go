package risk

import "roofyears/lcc"

// richStudy has a cost of every kind and an input of every unit, all certain:
// an existing roof kept on repairs, a restoration with recoats, a tear-off; in
// current money, at mid-year.
func richStudy() *lcc.Study {
	b := newBuilder(30)
	s := b.s
	named := func(path string, unit lcc.Unit, value string) lcc.Ref {
		return s.Add(lcc.Input{Path: path, Unit: unit, Likely: dec(value)})
	}
	s.Basis, s.Timing = lcc.Nominal, lcc.MidYear
	s.Rate = named("rate", lcc.Rate, "0.05")
	s.Inflation = named("inflation", lcc.Rate, "0.02")
	s.Area = named("area", lcc.Area, "20000")
	s.Escalation[lcc.Construction] = lcc.Series{named("construction", lcc.Rate, "0.03")}
	for range s.Period {
		s.Escalation[lcc.Energy] = append(s.Escalation[lcc.Energy], b.fixed(lcc.Rate, "0.04"))
	}
	s.Inputs[s.Escalation[lcc.Energy][6]].Path = "energy in year 7"
	growing := b.item(named("repairs", lcc.Money, "4000"), lcc.NoRef, lcc.Maintenance)
	growing[0].Growth = named("growth", lcc.Rate, "0.06")
	inspection := b.item(named("inspection", lcc.Money, "1500"), lcc.NoRef, lcc.Fees)
	inspection[0].Every = 3
	heat := b.item(named("energy", lcc.Money, "2500"), lcc.NoRef, lcc.Energy)
	edge := b.item(named("edge", lcc.Price, "14"), named("edge length", lcc.Length, "800"), lcc.Construction)
	drains := b.item(named("drain", lcc.Price, "350"), named("drains", lcc.Count, "9"), lcc.Construction)
	s.Systems = []lcc.System{
		{Key: "existing", InPlace: true, Life: named("existing.life", lcc.Years, "6"), Then: 2,
			Annual: growing, Periodic: inspection,
			Removal: b.item(named("scrap", lcc.Price, "-0.4"), s.Area, lcc.Disposal)},
		{Key: "restoration", Life: named("restoration.life", lcc.Years, "20"), Then: 2,
			First:  append(b.item(named("coating", lcc.Price, "5"), s.Area, lcc.Construction), edge...),
			Annual: heat, Residual: lcc.Residual{Mode: lcc.FixedAmount, Amount: named("left", lcc.Money, "9000")},
			Recoat: &lcc.Recoating{AtMost: 1, Life: named("recoat.life", lcc.Years, "9.5"),
				Costs: b.item(named("recoat", lcc.Price, "2.5"), s.Area, lcc.Construction)}},
		{Key: "tear_off", Life: named("tear_off.life", lcc.Years, "24"), Then: 2,
			First:    append(b.item(named("roofing", lcc.Price, "13"), s.Area, lcc.Construction), drains...),
			Periodic: inspection, Annual: heat},
	}
	s.Alternatives = []lcc.Alternative{
		{Name: "Keep", Start: 0, BaseCase: true}, {Name: "Restore", Start: 1}, {Name: "Tear off", Start: 2},
	}
	return s
}

// with makes one input uncertain; its likely value stays.
func with(s *lcc.Study, path string, e estimate) lcc.Ref {
	ref := s.Find(path)
	in := e.input(s.Inputs[ref].Unit)
	in.Path = path
	s.Inputs[ref] = in
	return ref
}
