package scenarios

import (
	"slices"
	"strings"

	"roofyears/scenarios/eligibility"
)

// found is a finding: a value, or the value with its source.
func (b *schemas) found(says string, value *schema) *schema {
	with := b.form(besideFinding, statedKeys, keyed{"value": {Description: "the finding itself", AllOf: []*schema{value}}, "source": sourced}, "value")
	return &schema{Description: says, OneOf: []*schema{value, with}}
}

// foundWord is a finding that is one of some words.
func foundWord[T ~string](b *schemas, says string, but ...T) *schema {
	words := slices.DeleteFunc(eligibility.Words[T](), func(w string) bool { return slices.Contains(but, T(w)) })
	return b.found(says+": "+expectOneOf(words), word(says, words))
}

func (b *schemas) foundYes(says string) *schema {
	return b.found(says+": "+expectBoolean, yesNo(says))
}

func (b *schemas) foundNumber(says, name string, k measure) *schema {
	return b.found(says+": "+k.expected, &schema{Ref: b.number(says, name, k).Ref})
}

func (b *schemas) findings() *schema {
	b.sections = append(b.sections, statedKeys)
	return b.section(inFindings, findingKeys, keyed{
		"coverings":             b.found("how many coverings lie on each other: "+expectWhole(0, mostCoverings), wholeNumber("how many", 0, mostCoverings)),
		"covering":              foundWord[eligibility.Covering](b, "the uppermost covering"),
		"surface":               foundWord[eligibility.Surface](b, "the surface that a coating would have to hold on"),
		"existing_coating":      foundWord[eligibility.Chemistry](b, "the coating that is there"),
		"base_sound":            b.foundYes("whether what would be covered or coated is sound"),
		"water_soaked":          b.foundYes("whether the roof is soaked"),
		"wet_share":             b.foundNumber("the share of the roof that is wet", "whole_share", share),
		"wet_found_by":          foundWord[eligibility.WetMethod](b, "how the wet part was found"),
		"wet_limit":             b.wetLimit(),
		"ponding_share":         b.foundNumber("the share of the roof on which water stands", "whole_share", share),
		"adhesion_tests":        b.found("peel tests of coatings on this roof", listOf(b.adhesionTest(), 0, mostTests)),
		"rust":                  b.rusted(),
		"section_loss":          b.foundYes("whether the metal has lost section"),
		"deck":                  foundWord[eligibility.Deck](b, "what carries the roof"),
		"deck_sound":            b.foundYes("whether the deck is sound"),
		"load_reserve":          b.foundNumber("the load that the structure can still take", "reserve", reserve),
		"pull_outs_tested":      b.foundYes("whether pull-out tests of fasteners were made"),
		"masonry_parapets":      b.foundYes("whether there are parapets of unreinforced masonry"),
		"seismic_category":      foundWord[eligibility.Seismic](b, "the seismic design category of the building"),
		"building_code":         foundWord[eligibility.Code](b, "the building code adopted here"),
		"energy_code":           foundWord[eligibility.EnergyCode](b, "the energy code adopted here"),
		"insulation_above_deck": b.foundYes("whether the insulation lies above the deck"),
		"in_thermal_envelope":   b.foundYes("whether the roof is part of the thermal envelope"),
		"asbestos":              foundWord[eligibility.Asbestos](b, "where the search for asbestos stands"),
	})
}

func (b *schemas) wetLimit() *schema {
	limit := b.number("the share from which the local code asks for more", "wet_limit", wetLimit)
	return &schema{
		Description: "the limit of wet area of the local code: " + expectWetLimit,
		OneOf: []*schema{{Ref: limit.Ref}, b.section(inWetLimit, wetLimitKeys, keyed{
			"share":       limit,
			"replace_all": yesNo("whether all of the roof has to be replaced above it"),
			"source":      sourced,
		}, "share")},
	}
}

func (b *schemas) rusted() *schema {
	grade := func(says string) *schema { return b.number(says, "whole_share", share) }
	s := b.section(inRust, rustShareKeys, keyed{
		"light": grade("the share that is lightly rusted"), "scaled": grade("the share with scale"),
		"perforated": grade("the share that is perforated"), "source": sourced,
	})
	s.Description = "shares of the metal by the grade of its rust; one that is left out is not known"
	return s.also(hasAny(rustShareKeys[:3]...))
}

func (b *schemas) adhesionTest() *schema {
	coatings := slices.DeleteFunc(eligibility.Words[eligibility.Chemistry](), func(w string) bool { return w == string(eligibility.Uncoated) })
	return b.section(inTest, testKeys, keyed{
		"coating": word("the coating that was tested", coatings),
		"least":   b.number("the least of the results", "peel", peel),
		"places":  wholeNumber("in how many places", 1, mostPlaces),
	}, testKeys...)
}

// planned is the schema of the eligibility of a system.
func (b *schemas) planned() *schema {
	done := func(what string) *schema {
		return b.found("which of the first costs "+what+", by the name of its item, or "+notDone, line("the name of the item"))
	}
	reason := line("the reason")
	reason.Not = &schema{Enum: []any{false, true}}
	for _, w := range noReasons {
		reason.Not.Enum = append(reason.Not.Enum, w, strings.ToUpper(w), strings.ToUpper(w[:1])+w[1:])
	}
	s := b.section(inPlanned, plannedKeys, keyed{
		"coating":                foundWord(b, "the coating that is planned", eligibility.Uncoated),
		"separate_system":        b.foundYes("whether it is a roof on a structure of its own"),
		"added_load":             b.foundNumber("the load that it adds; unless stated, that of the take-off's coats", "load", addedLoad),
		"share_of_roof":          b.foundNumber("the share of the roof that the work is for", "whole_share", share),
		"wet_part_replaced_by":   done("replaces the wet part"),
		"panels_replaced_by":     done("replaces perforated panels"),
		"drainage_corrected_by":  done("corrects the drainage"),
		"deck_repaired_by":       done("repairs the deck"),
		"parapets_braced_by":     done("braces the parapets"),
		"asbestos_handled_by":    done("handles the asbestos"),
		"insulation_upgraded_by": done("upgrades the insulation"),
		"insulation_waived":      b.found("the reason why the insulation is not upgraded", reason),
		"fire_class_shown":       b.foundYes("whether the fire class was shown"),
		"wind_shown":             b.foundYes("whether the resistance to wind was shown"),
	})
	return s.also(when(has("insulation_upgraded_by"), lacks("insulation_waived")))
}
