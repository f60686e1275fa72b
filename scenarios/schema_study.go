package scenarios

import (
	"slices"

	"github.com/bojanz/currency"

	"roofyears/lcc"
)

// root is the schema of the whole file.
func (b *schemas) root() *schema {
	b.defs = members{{"text", text(maxText)}}
	s := b.section(atTop, rootKeys, keyed{
		"roofyears":    {Description: "the version of the file format: " + Format, Enum: []any{1, Format}},
		"study":        says("what is compared: title, period, currency and rates", b.study()),
		"roof":         says("how large the roof is", b.roof()),
		"findings":     says("what was found out about the roof; with it, rules say which work may be chosen", b.findings()),
		"systems":      says("each roof or treatment, by a name of your own", named(keyPattern.String(), b.system(), 1, maxSystems)),
		"alternatives": says("what the owner can choose", listOf(b.alternative(), 1, maxAlternatives)),
		"letterhead":   says("what the owner's page shows in your name; no figure depends on it", b.letterhead()),
		"survey":       says("what was measured on the roof, so that costs can be priced by it", b.survey()),
		"takeoff":      says("the first work of one system, step by step, with its material", b.takeoff()),
		"tax":          says("what the study is after tax; nothing is assumed, so every cost needs a treatment", b.tax()),
		"portfolio":    says("what this file says as the template of many roofs", b.portfolio()),
	}, "roofyears", "study", "systems", "alternatives")
	planes := both(has("survey"), at("survey", both(&schema{Type: "object"}, has("planes"), at("planes", &schema{Type: "array", MinItems: 1}))))
	real := at("study", both(has("rate_basis"), at("rate_basis", &schema{Const: lcc.Real.String()})))
	s.also(when(both(has("tax"), real), at("study", has("inflation"))))
	return s.also(&schema{If: planes, Else: both(has("roof"), at("roof", has("area")))})
}

func (b *schemas) study() *schema {
	codes := slices.Sorted(slices.Values(currency.GetCurrencyCodes()))
	s := b.section(underStudy, studyKeys, keyed{
		"title":         line("what the study is about, in one line"),
		"prepared_for":  line("who asked for it"),
		"prepared_by":   line("who made it"),
		"prepared_on":   day("the day on which it was made"),
		"valid_until":   day("the day until which the prices hold"),
		"base_date":     day("time 0: prices are those of this day"),
		"period":        wholeNumber("the study period in years", 1, lcc.MaxPeriod),
		"currency":      word("the ISO 4217 code of the currency, such as USD", codes),
		"timing":        word("when annual and periodic costs fall due; end-of-year unless said otherwise", timings),
		"rate_basis":    word("whether rates are net of inflation (real) or hold it (nominal)", bases),
		"discount_rate": b.estimate("the discount rate a year", "rate", rate),
		"inflation":     b.estimate("inflation a year; needed when rates are nominal", "rate", rate),
		"escalation":    says("how much faster than inflation (real) or how fast (nominal) prices rise a year, by cost category", b.escalation()),
	}, "title", "base_date", "period", "currency", "rate_basis", "discount_rate")
	nominal := both(has("rate_basis"), at("rate_basis", &schema{Const: lcc.Nominal.String()}))
	return s.also(when(nominal, has("inflation")))
}

func (b *schemas) escalation() *schema {
	is := keyed{}
	for _, category := range lcc.CategoryNames() {
		each := b.estimate("", "rate", rate)
		is[category] = &schema{
			Description: "a rate a year of " + category + " costs, or a list of one rate for each year of the study period: " + expectRate,
			OneOf:       []*schema{{Ref: each.Ref}, listOf(&schema{Ref: each.Ref}, 1, lcc.MaxPeriod)},
		}
	}
	return b.section(inEscalation, lcc.CategoryNames(), is)
}

func (b *schemas) roof() *schema {
	quantities := named(keyPattern.String(), b.estimate("a quantity that prices may be per", "quantity", quantity), 0, maxQuantities)
	quantities.Properties = members{{"area", &schema{Not: &schema{}}}}
	return b.section(underRoof, roofKeys, keyed{
		"area":       b.estimate("the plan area of the roof", "plan_area", planArea),
		"quantities": says("what else prices may be per, by names of your own: lengths, areas, pieces", quantities),
	})
}

func (b *schemas) alternative() *schema {
	return b.section(inAlternative, alternateKey, keyed{
		"name":      line("what the alternative is called in the answer"),
		"start":     line("the key of the system that it starts with"),
		"base_case": yesNo("whether the others are compared with this one; at most one is"),
		"wait": says("the system is put off, and another is kept first", b.section(inWait, waitKeys, keyed{
			"on":    line("the key of the system that is kept first"),
			"years": wholeNumber("for how many years it is kept, less than the study period", 0, lcc.MaxPeriod-1),
		}, waitKeys...)),
		"ruled_out": says("why the alternative may not be chosen; it is shown, and is never the answer", b.section(inRuledOut, rulingKeys, keyed{
			"rule":    line("the rule that it breaks"),
			"finding": line("what was found that breaks it"),
			"source":  sourced,
		}, "rule", "finding")),
	}, "name", "start")
}

func (b *schemas) letterhead() *schema {
	colour := &schema{Type: "string", Pattern: `^#[0-9a-fA-F]{6}$`}
	logo := line("the file of the logo: " + expectLogo)
	logo.Not = &schema{Type: "string", Pattern: `^\s*(?:/|\.\./)`} // it would leave the folder
	return b.section(underLetterhead, letterKeys, keyed{
		"logo": logo,
		"colours": says("the colours of the page, each with a contrast of 4.5:1 on white", b.section(inColours, colourKeys, keyed{
			"accent":  says("of links and rules: "+expectColour, colour),
			"heading": says("of headings: "+expectColour, colour),
		})),
		"contact": says("how to reach you, line by line", listOf(text(MaxContactLine), 0, MaxContact)),
		"note":    {Description: "a word of your own to the owner: " + expectNote, OneOf: []*schema{text(MaxParagraph), listOf(text(MaxParagraph), 0, MaxNote)}},
	})
}

func (b *schemas) portfolio() *schema {
	return b.section(underPortfolio, manyKeys, keyed{
		"columns": {
			Description: "what the heads of a table stand for, by head: the path of an input or a finding, id, name or template",
			Type:        "object", PatternProperties: members{{"", line("what it stands for")}}, AdditionalProperties: new(bool), MaxProperties: maxMapped,
		},
		"budget":    says("what works may cost in each year of a plan: "+expectYearly, named(yearsPattern, b.number("what works may cost in a year", "budget", yearsMoney), 0, maxMapped)),
		"crew_area": says("the area that may be worked on in each year of a plan: "+expectYearly, named(yearsPattern, b.number("what may be worked on in a year", "surface", surface), 0, maxMapped)),
	})
}
