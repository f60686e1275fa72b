package scenarios

import (
	"slices"

	"roofyears/lcc"
)

// system is the schema of one system.
func (b *schemas) system() *schema {
	residual := b.estimate("", "amount", amount)
	s := b.section(inSystem, systemKeys, keyed{
		"name":           line("what the system is called on the page"),
		"work":           word("the kind of work, for the wording and the rules; taken from the key or the name unless given", worksOf),
		"in_place":       yesNo("whether it is the roof that stands at time 0, without first cost"),
		"life":           b.life("how long it lasts, in years; of the roof in place, the years left", &schema{Const: "takeoff"}),
		"first_costs":    b.items("what it costs to install", "growth", "age_from", "every"),
		"annual_costs":   b.items("what it costs each year", "every"),
		"periodic_costs": b.items("what it costs every so many years"),
		"recoat":         says("its renewal in place", b.recoat()),
		"removal":        b.items("what is paid when what follows is installed; a credit is negative", "growth", "age_from", "every"),
		"residual": {
			Description: "the value left at the end: " + expectResidual,
			OneOf:       []*schema{word("the unused share of the life, or nothing", residuals), {Ref: residual.Ref}},
		},
		"cool_roof":   says("what a more reflective surface does to the energy bills", b.coolRoof()),
		"eligibility": says("what the rules ask of the work", b.planned()),
		"then":        line("the key of the system that follows it; without it, itself"),
	}, "name", "life")
	return s.also(when(both(has("in_place"), at("in_place", &schema{Const: true})), lacks("cool_roof")))
}

func (b *schemas) recoat() *schema {
	costs := b.items("what one renewal costs", "growth", "age_from", "every")
	costs.MinItems = 1
	return b.section(inRecoat, recoatKeys, keyed{
		"at_most": wholeNumber("how many times it is renewed before what follows is installed", 1, maxRecoats),
		"life":    b.life("how long it lasts after a renewal, in years"),
		"costs":   costs,
	}, recoatKeys...)
}

// items is a list of cost items that lack some of the keys of one.
func (b *schemas) items(about string, without ...string) *schema {
	is := b.itemKeys()
	keys := slices.DeleteFunc(slices.Clone(itemKeys), func(key string) bool { return slices.Contains(without, key) })
	for _, key := range without {
		delete(is, key)
	}
	needs := []string{"item"}
	if len(without) == 0 {
		b.sections = append(b.sections, itemKeys)
		needs = append(needs, "every")
	}
	item := b.form(inItem, keys, is, needs...)
	item.OneOf = []*schema{both(has("amount"), lacks("unit_price", "per")), both(has("unit_price", "per"), lacks("amount"))}
	if slices.Contains(keys, "growth") {
		item.DependentRequired = map[string][]string{"age_from": {"growth"}}
	}
	return says(about, listOf(item, 0, maxItems))
}

func (b *schemas) itemKeys() keyed {
	return keyed{
		"item":       line("what is paid for"),
		"amount":     b.estimate("what it costs as a whole", "amount", amount),
		"unit_price": b.estimate("what one unit costs of what it is per", "price", unitPrice),
		"per":        line("what the unit price is per: area, a name under roof.quantities, or a measure of the survey"),
		"category":   word("the cost category; unless given, construction, maintenance or disposal by the list that it stands in", lcc.CategoryNames()),
		"growth":     b.estimate("how much it grows with each year of age", "rate", rate),
		"age_from":   word("whether the age starts anew with a renewal (unless said otherwise) or counts from the installation", agesFrom),
		"every":      wholeNumber("every how many years it is paid", 1, maxEvery),
		"source":     sourced,

		keyTreatment: b.treatment("how it is deducted"),
	}
}

func (b *schemas) coolRoof() *schema {
	emittances := says("emittance: "+expectEmittance, emittance.schema())
	days := b.number("", "degree_days", degreeDays)
	s := b.section(inCoolRoof, coolRoofKeys, keyed{
		"same_as":             line("the key of a system further up whose cool_roof gives what is not stated here"),
		"per":                 line("the area that it is for; the roof's own unless said otherwise"),
		"reflectance_now":     b.estimate("solar reflectance of the present surface", "fraction", fraction),
		"reflectance_new":     b.estimate("solar reflectance of the new surface when new", "fraction", fraction),
		"reflectance_aged":    b.estimate("solar reflectance of the new surface when soiled; by a formula unless given", "fraction", fraction),
		"emittance_now":       says("of the present surface, for the solar reflectance index: "+expectEmittance, emittances),
		"emittance_new":       says("of the new surface, for the solar reflectance index: "+expectEmittance, emittances),
		"sun_cooling":         b.estimate("sun on the roof while the building is cooled, a year", "sun", sunshine),
		"sun_heating":         b.estimate("sun on the roof while the building is heated, a year", "sun", sunshine),
		"sun_year":            b.estimate("sun on the roof in a year, shared out by degree-days", "sun", sunshine),
		"cooling_degree_days": says("how much there is to cool: "+expectDegreeDays, days),
		"heating_degree_days": says("how much there is to heat: "+expectDegreeDays, days),
		"u_value":             b.estimate("how much heat the roof lets through", "conductance", conductance),
		"outside_film":        b.estimate("how much heat the air takes from the surface", "conductance", conductance),
		"cop":                 b.estimate("coefficient of performance of what cools", "performance", performance),
		"seer":                b.estimate("seasonal rating of what cools, in place of cop", "seer", seer),
		"heating_efficiency":  b.estimate("heat given over energy used, of what heats", "performance", performance),
		"electricity_price":   b.estimate("price of electricity", "power_price", powerPrice),
		"heating_price":       b.estimate("price of what heats", "heating_price", heatingPrice),
	}, "reflectance_new")
	year := []string{"sun_year", "cooling_degree_days", "heating_degree_days"}
	s.DependentRequired = map[string][]string{year[1]: year, year[2]: year, year[0]: year, "emittance_now": {"emittance_new"}}
	alone := both(has("reflectance_now", "u_value"), &schema{AnyOf: []*schema{has("sun_year"), has("sun_cooling", "sun_heating")}},
		when(hasAny("cop", "seer"), has("electricity_price")), when(has("electricity_price"), hasAny("cop", "seer")))
	alone.DependentRequired = map[string][]string{
		"heating_efficiency": {"heating_price"}, "heating_price": {"heating_efficiency"}, "emittance_new": {"emittance_now"},
	}
	return s.also(when(has("sun_year"), lacks("sun_cooling", "sun_heating")), when(has("cop"), lacks("seer")), when(not(has("same_as")), alone))
}
