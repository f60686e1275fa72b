package scenarios

// tax is the schema of what a study says of tax.
func (b *schemas) tax() *schema {
	return b.section(underTax, taxKeys, keyed{
		"rate":                    says("the tax rate, such as 25%, or a federal and a state rate and how they go together", b.taxRate()),
		"after_tax_discount_rate": {Description: "the discount rate after tax a year, or " + derivedWord + ": before tax, less the tax on it: " + expectTaxDiscount, AnyOf: []*schema{{Const: derivedWord}, b.number("after tax", "after-tax rate", taxDiscount)}},
		"treatments":              says("how the costs of each kind are deducted, unless a cost or its system says otherwise", b.treatments()),
		"systems":                 says("the same for the costs of one system, by its name in this file", named(keyPattern.String(), b.treatments(), 0, maxSystems)),
		"torn_off":                word("what becomes of the basis left of a roof that is torn off", fates),
		"tear_offs":               says("the systems that take off what is on the roof, where that is written off", listOf(line("the name of a system in this file"), 1, maxSystems)),
		"at_end":                  word("what becomes of the basis left at the end of the study", fates),
		"residual_value":          word("whether residual value is taxed", taxedOrNot),
		"existing_basis": says("what is left to depreciate of the roof that is there", b.section(inExistingBasis, existingKeys, keyed{
			"amount":     b.number("the basis left at the base date", "tax amount", taxAmount),
			"years_left": wholeNumber("over how many years it is still depreciated", 1, maxTaxYears),
			"source":     sourced,
		}, "amount", "years_left")),
		"immediate_limit": b.number("how much may be deducted at once in a year", "tax limit", taxLimit),
		"credits":         says("tax credits and rebates", listOf(b.credit(), 0, maxCredits)),
		"source":          sourced,
	}, "rate", "after_tax_discount_rate", "residual_value").also(
		when(has("existing_basis"), has("torn_off", "at_end")),
		when(both(has("torn_off"), at("torn_off", &schema{Const: labelWritten})), has("tear_offs")),
		when(has("tear_offs"), both(has("torn_off"), at("torn_off", &schema{Const: labelWritten}))),
		when(both(has("at_end"), at("at_end", &schema{Const: labelWritten})), at("residual_value", &schema{Const: taxedOrNot[1]})))
}

func (b *schemas) taxRate() *schema {
	two := b.section(inTaxRate, taxRateKeys, keyed{
		"federal":        b.number("the federal rate", "tax rate", taxRate),
		"state":          b.number("the state rate", "tax rate", taxRate),
		"state_deducted": yesNo("whether state tax is deducted from what is taxed federally"),
	}, "federal", "state", "state_deducted")
	return &schema{AnyOf: []*schema{b.number("the tax rate", "tax rate", taxRate), two}}
}

// treatments are treatments by the list of costs that they are for.
func (b *schemas) treatments() *schema {
	is := keyed{}
	for _, list := range taxListKeys {
		is[list] = b.treatment("how the costs under " + list + " are deducted")
	}
	return b.section(inTreatments, taxListKeys, is)
}

// treatment is how a cost is deducted.
func (b *schemas) treatment(says string) *schema {
	const name = "tax treatment"
	if !b.defined(name) {
		b.defs = append(b.defs, member{name, &schema{}})
		at := len(b.defs) - 1
		words := word("", treatmentWords())
		rest := word("", treatmentWords()[2:])
		straight := b.section(inTreatment, treatmentKeys, keyed{
			"straight_line":  wholeNumber("over how many years it is depreciated evenly", 1, maxTaxYears),
			"immediate_then": {Description: "deducted at once up to immediate_limit, and the rest depreciated so", AnyOf: []*schema{rest, both(&schema{Ref: "#/$defs/" + name}, has("straight_line"), &schema{Type: "object"})}},
		})
		straight.MinProperties, straight.MaxProperties = 1, 1
		b.defs[at].is = &schema{AnyOf: []*schema{words, straight}}
	}
	return &schema{Description: says + ": " + expectTreatment, Ref: "#/$defs/" + name}
}

func (b *schemas) defined(name string) bool {
	for _, d := range b.defs {
		if d.name == name {
			return true
		}
	}
	return false
}

func (b *schemas) credit() *schema {
	return b.section(inCredit, creditKeys, keyed{
		"item":          line("what it is called"),
		"system":        line("the system that it is paid for, by its name in this file"),
		"amount":        b.number("how much it is", "tax amount", taxAmount),
		"until":         wholeNumber("the last year of the study in which works earn it", 0, 199),
		"reduces_basis": b.number("the share of it by which it lowers the basis", "share", taxShare),
		"taxed":         yesNo("whether it is taxed as income"),
		"source":        sourced,
	}, "item", "system", "amount", "until", "reduces_basis", "taxed")
}
