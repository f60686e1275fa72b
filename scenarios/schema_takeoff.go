package scenarios

import "roofyears/lcc"

// takeoff is the schema of a first work, step by step.
func (b *schemas) takeoff() *schema {
	return b.section(underTakeoff, takeoffKeys, keyed{
		"for":   line("the key of the system whose first work it is"),
		"steps": says("what is done, in the order of doing", listOf(b.step(), 1, maxSteps)),
	}, takeoffKeys...)
}

func (b *schemas) step() *schema {
	s := b.section(inStep, stepKeys, keyed{
		"step":     line("what is done"),
		"over":     line("the quantity that it is done to: area, a name under roof.quantities, or a measure of the survey"),
		"labour":   b.estimate("the labour for one unit of the quantity", "price", unitPrice),
		"lump":     b.estimate("what it costs as a whole, in place of over, labour and material", "amount", amount),
		"material": says("what it takes", b.material()),
		"wait":     b.number("how long to wait before the next step", "hours", hours),
		"note":     line("what to mind"),
		"category": word("the cost category; construction unless said otherwise", lcc.CategoryNames()),
		"source":   sourced,

		keyTreatment: b.treatment("how its cost is deducted"),
	}, "step")
	s.OneOf = []*schema{both(has("lump"), lacks("over", "labour", "material")), both(has("over"), hasAny("labour", "material"), lacks("lump"))}
	return s
}

func (b *schemas) material() *schema {
	rate := covers("ft")
	rate.expected = "so much of the quantity a gallon or litre, such as 60 ft/gal, 2.5 m2/L or 12 pieces/gal"
	rate.units = nil
	for _, unit := range []string{"", "ft", "ft2"} {
		rate.units = append(rate.units, covers(unit).units...)
	}
	pack := quantPack
	pack.expected = "the size of a pack, such as 5 gal, 20 L or, of what is no paint, 250, 100 ft or 400 ft2"
	pack.units = append(append([]string{}, quantPack.units...), paintPack.units...)
	s := b.section(inMaterial, materialKeys, keyed{
		"name":   line("what is bought"),
		"film":   b.estimate("the dry film that is wanted", "film", film),
		"solids": b.estimate("the share of the paint that stays", "solids", solids),
		"loss":   b.estimate("the loss", "loss", loss),
		"extra":  b.estimate("for a rough surface", "extra_paint", extraPaint),
		"covers": b.estimate("how far it goes", "covers", rate),
		"pack":   b.number("what is bought is rounded up to whole packs", "pack", pack),
		"price":  b.estimate("what a gallon, litre or unit costs", "price", unitPrice),
		"colour": line("its colour"),
	}, "name", "price")
	return s.also(
		when(has("film"), both(has("solids"), lacks("covers"))),
		when(not(has("film")), lacks("solids", "loss", "extra")),
		when(has("loss"), lacks("extra")))
}
