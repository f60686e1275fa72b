package scenarios

import "roofyears/scenarios/geometry"

// survey is the schema of what was measured.
func (b *schemas) survey() *schema {
	edge := func(of string) *schema { return b.estimate("length of all "+of, "length", length) }
	share := func(of string) *schema { return b.estimate(of, "share", shareOf) }
	water := func(of string) *schema {
		return says(of, b.section(inWater, waterKeys, keyed{
			"area":     b.estimate("how large it is", "surface", surface),
			"found_by": line("how it was found, such as infrared with cores"),
		}, "area"))
	}
	return b.section(underSurvey, surveyKeys, keyed{
		"date":         day("the day of the survey"),
		"by":           line("who measured; the source of what has none of its own"),
		"panels":       says("the kinds of panels, by names of your own", named(keyPattern.String(), b.panel(), 0, maxSurveyed)),
		"planes":       says("parts of the roof with one slope and one kind of panel", listOf(b.plane(), 0, maxSurveyed)),
		"openings":     says("what is deducted from areas, such as skylights", listOf(b.opening(), 0, maxSurveyed)),
		"penetrations": says("what goes through the roof", listOf(b.penetration(), 0, maxSurveyed)),
		"edges": says("lengths of the edges", b.section(inEdges, edgeKeys, keyed{
			"ridge": edge("ridges"), "hip": edge("hips"), "valley": edge("valleys"),
			"eave": edge("eaves"), "gable": edge("gables"), "wall": edge("edges at walls"),
		})),
		"screws": says("the screws that hold the panels", b.section(inScrews, screwKeys, keyed{
			"count":          b.estimate("how many there are; unless counted, they follow from the panels", "pieces", pieces),
			"loose":          share("the share that is loose"),
			"stripped":       share("the share that is stripped"),
			"missing":        share("the share that is missing"),
			"extra_at_seams": b.estimate("how many are to be added at seams", "pieces", pieces),
		})),
		"rust": says("shares of the surface by the grade of rust", b.section(inSurveyRust, rustKeys, keyed{
			"light":      share("the share that is lightly rusted, of the developed area"),
			"scaled":     share("the share with scale, of the developed area"),
			"perforated": share("the share that is perforated and replaced, of the surface"),
		})),
		"wet":     water("wet insulation"),
		"ponding": water("where water stands"),
		"gaps": says("open seams and holes by their width", listOf(b.section(inGap, gapKeys, keyed{
			"width":  b.dimension("how wide they are"),
			"length": b.estimate("how long they are together", "length", length),
		}, gapKeys...), 0, maxSurveyed)),
	})
}

// dimension is a length that nobody estimates, with a fraction as on a rule.
func (b *schemas) dimension(says string) *schema {
	b.define("dimension", dimension, func() *schema {
		s := dimension.schema()
		decimals, fractions := s.Pattern, `^\s*(?:[0-9]{1,6} +)?[0-9]{1,6}/[1-9][0-9]{0,5}`+dimension.suffix()+`\s*$`
		return &schema{Type: "string", Pattern: decimals + "|" + fractions}
	})
	return b.refer(says, "dimension", dimension)
}

func (b *schemas) panel() *schema {
	developed := b.dimension("")
	s := b.section(inPanel, panelKeys, keyed{
		"profile": word("the shape of the panel", profiles),
		"pitch":   b.dimension("from one rib to the next"),
		"base":    b.dimension("width of a rib at its foot"),
		"top":     b.dimension("width of a rib at its top"),
		"height":  b.dimension("height of a rib or seam"),
		"depth":   b.dimension("depth of the corrugation"),
		"developed": {
			Description: "sheet over the width that it covers, from 1 to 10, or the length along the sheet of one panel",
			OneOf:       []*schema{{Type: []string{"number", "string"}, Minimum: "1", Maximum: "10", Pattern: `^\s*(?:` + overZero + `)\s*$`}, {Ref: developed.Ref}},
		},
		"cover":   b.dimension("the width that one panel covers"),
		"length":  b.dimension("length of one panel; without it, from eave to ridge in one piece"),
		"purlins": b.dimension("from one purlin to the next"),
		"screws": says("how far apart the screws are", b.section(inPanelScrews, spacingKeys, keyed{
			"field":  b.dimension("from one screw to the next along a purlin"),
			"stitch": b.dimension("from one screw to the next along a side lap"),
		}, "field")),
	}, "profile")
	for i, profile := range profiles {
		var others []string
		for _, key := range sectionKeys {
			if !contains(profileUses[i], key) {
				others = append(others, key)
			}
		}
		needs := append([]string{}, profileUses[i]...)
		if profile == "standing_seam" {
			needs = append(needs, "cover")
		}
		s.also(when(both(has("profile"), at("profile", &schema{Const: profile})), both(has(needs...), lacks(others...))))
	}
	stitched := both(has("screws"), at("screws", both(&schema{Type: "object"}, has("stitch"))))
	return s.also(when(has("screws"), has("purlins")), when(stitched, has("cover")))
}

func (b *schemas) plane() *schema {
	s := b.section(inPlane, planeKeys, keyed{
		"name":        line("what the plane is called"),
		"length":      b.estimate("its length", "side", side),
		"width":       b.estimate("its width", "side", side),
		"area":        b.estimate("its area, in place of length and width", "plane_area", planeArea),
		"measured_on": word("whether it was measured in plan (unless said otherwise) or on the slope", measuredOn),
		"slope":       {Description: `how steep it is, such as "1/2:12", "4%" or "5 deg"; level unless given`, Type: "string", Pattern: geometry.SlopePattern()},
		"panel":       line("the name of its panel under survey.panels"),
	}, "name")
	s.OneOf = []*schema{both(has("area"), lacks("length", "width")), both(has("length", "width"), lacks("area"))}
	return s.also(when(both(has("measured_on"), at("measured_on", &schema{Const: measuredOn[1]})), has("slope")))
}

func (b *schemas) opening() *schema {
	return b.section(inOpening, openingKeys, keyed{
		"name":  line("what they are, such as skylights"),
		"count": b.estimate("how many there are", "pieces", pieces),
		"area":  b.estimate("area of one", "surface", surface),
		"plane": line("the name of the plane that they are in"),
	}, "name", "count", "area")
}

func (b *schemas) penetration() *schema {
	return b.section(inPenetration, penetrationKeys, keyed{
		"name":  line("what they are, such as pipes"),
		"key":   {Description: "the name by which prices may be per them: small letters, digits and _", Type: "string", Pattern: keyPattern.String()},
		"count": b.estimate("how many there are", "pieces", pieces),
		"girth": b.estimate("length around one", "length", length),
	}, "name", "key", "count")
}
