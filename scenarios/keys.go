package scenarios

import "slices"

// The keys of each section, in the order in which messages list them.
var (
	rootKeys     = []string{"roofyears", "study", "roof", "findings", "systems", "alternatives", "letterhead", "survey", "takeoff", "tax", "portfolio"}
	studyKeys    = []string{"title", "prepared_for", "prepared_by", "prepared_on", "valid_until", "base_date", "period", "currency", "timing", "rate_basis", "discount_rate", "inflation", "escalation"}
	roofKeys     = []string{"area", "quantities"}
	systemKeys   = []string{"name", "work", "in_place", "life", "first_costs", "annual_costs", "periodic_costs", "recoat", "removal", "residual", "cool_roof", "eligibility", "then"}
	recoatKeys   = []string{"at_most", "life", "costs"}
	itemKeys     = []string{"item", "amount", "unit_price", "per", "category", "growth", "age_from", "every", "source", keyTreatment}
	alternateKey = []string{"name", "start", "base_case", "wait", "ruled_out"}
	waitKeys     = []string{"on", "years"}
	rulingKeys   = []string{"rule", "finding", "source"}
	manyKeys     = []string{"columns", "budget", "crew_area"}
	letterKeys   = []string{"logo", "colours", "contact", "note"}
	colourKeys   = []string{"accent", "heading"}

	surveyKeys      = []string{"date", "by", "panels", "planes", "openings", "edges", "penetrations", "screws", "rust", "wet", "ponding", "gaps"}
	panelKeys       = []string{"profile", "pitch", "base", "top", "height", "depth", "developed", "cover", "length", "purlins", "screws"}
	spacingKeys     = []string{"field", "stitch"}
	planeKeys       = []string{"name", "length", "width", "area", "measured_on", "slope", "panel"}
	openingKeys     = []string{"name", "count", "area", "plane"}
	edgeKeys        = []string{"ridge", "hip", "valley", "eave", "gable", "wall"}
	penetrationKeys = []string{"name", "key", "count", "girth"}
	screwKeys       = []string{"count", "loose", "stripped", "missing", "extra_at_seams"}
	rustKeys        = []string{"light", "scaled", perforatedRust}
	waterKeys       = []string{"area", "found_by"}
	gapKeys         = []string{"width", "length"}

	takeoffKeys  = []string{"for", "steps"}
	stepKeys     = []string{"step", "over", "labour", "lump", "material", "wait", "note", "category", "source", keyTreatment}
	materialKeys = []string{"name", "film", "solids", "loss", "extra", "covers", "pack", "price", "colour"}
	fromFilmKeys = []string{"film", "worn_at", "wear"}

	taxKeys       = []string{"rate", "after_tax_discount_rate", "treatments", "systems", "torn_off", "tear_offs", "at_end", "residual_value", "existing_basis", "immediate_limit", "credits", "source"}
	taxRateKeys   = []string{"federal", "state", "state_deducted"}
	taxListKeys   = []string{"first_costs", "recoat", "annual_costs", "periodic_costs", "removal"}
	treatmentKeys = []string{"straight_line", "immediate_then"}
	existingKeys  = []string{"amount", "years_left", "source"}
	creditKeys    = []string{"item", "system", "amount", "until", "reduces_basis", "taxed", "source"}

	findingKeys   = []string{"coverings", "covering", "surface", "existing_coating", "base_sound", "water_soaked", "wet_share", "wet_found_by", "wet_limit", "ponding_share", "adhesion_tests", "rust", "section_loss", "deck", "deck_sound", "load_reserve", "pull_outs_tested", "masonry_parapets", "seismic_category", "building_code", "energy_code", "insulation_above_deck", "in_thermal_envelope", "asbestos"}
	statedKeys    = []string{"value", "source"}
	wetLimitKeys  = []string{"share", "replace_all", "source"}
	rustShareKeys = []string{"light", "scaled", perforatedRust, "source"}
	testKeys      = []string{"coating", "least", "places"}
	plannedKeys   = []string{"coating", "separate_system", "added_load", "share_of_roof", "wet_part_replaced_by", "panels_replaced_by", "drainage_corrected_by", "deck_repaired_by", "parapets_braced_by", "asbestos_handled_by", "insulation_upgraded_by", "insulation_waived", "fire_class_shown", "wind_shown"}
)

// sectionHome says where the keys of a section belong.
type sectionHome struct {
	where string
	keys  []string
}

// homes say where keys belong; those whose keys are words of everyday texts
// stand last, from the letterhead on (see expectedInBraces).
var homes = []sectionHome{
	{underStudy, studyKeys},
	{underRoof, roofKeys},
	{inSystem, systemKeys},
	{inRecoat, recoatKeys},
	{inItem, itemKeys},
	{inCoolRoof, coolRoofKeys},
	{inAlternative, alternateKey},
	{inWait, waitKeys},
	{inRuledOut, rulingKeys},
	{inEstimate, estimateKeys},
	{inDistribution, meanKeys},
	{underLetterhead, letterKeys},
	{underLetterhead, colourKeys},
	{atTop, rootKeys},
	{underPortfolio, manyKeys},
	{underSurvey, surveyKeys},
	{inPanel, panelKeys},
	{inPanelScrews, spacingKeys},
	{inPlane, planeKeys},
	{inOpening, openingKeys},
	{inEdges, edgeKeys},
	{inPenetration, penetrationKeys},
	{inScrews, screwKeys},
	{inSurveyRust, rustKeys},
	{inWater, waterKeys},
	{inGap, gapKeys},
	{underTakeoff, takeoffKeys},
	{inStep, stepKeys},
	{inMaterial, materialKeys},
	{"in the life of a system", []string{"from_film"}},
	{inFromFilm, fromFilmKeys},
	{inFindings, findingKeys},
	{inPlanned, plannedKeys},
	{inFindings, wetLimitKeys},
	{inFindings, rustShareKeys},
	{inFindings, testKeys},
	{underTax, taxKeys},
	{underTax, taxRateKeys},
	{underTax, existingKeys},
	{inTreatment, treatmentKeys},
	{inCredit, creditKeys},
}

// Where keys belong, for the reader, the schema and [homes].
const (
	atTop           = "at the top of the file"
	underStudy      = "under study"
	inEscalation    = "under escalation"
	underRoof       = "under roof"
	underPortfolio  = "under portfolio"
	inSystem        = "in a system"
	inRecoat        = "in the recoat of a system"
	inItem          = "in a cost item"
	inAlternative   = "in an alternative"
	inWait          = "in the wait of an alternative"
	inRuledOut      = "in the ruled_out of an alternative"
	inDistribution  = "in a distribution"
	inLife          = "in a life that has from_film"
	inColours       = "in the colours of the letterhead"
	inPanel         = "in a panel of the survey"
	inPanelScrews   = "in the screws of a panel"
	inPlane         = "in a plane of the survey"
	inOpening       = "in an opening of the survey"
	inEdges         = "under survey.edges"
	inPenetration   = "in a penetration of the survey"
	inScrews        = "under survey.screws"
	inSurveyRust    = "under survey.rust"
	inWater         = "in the wet or ponding area of the survey"
	inGap           = "in a gap of the survey"
	underTakeoff    = "under takeoff"
	inStep          = "in a step of the take-off"
	inMaterial      = "in the material of a step"
	besideFinding   = "beside a finding"
	inWetLimit      = "in the wet_limit of the findings"
	inRust          = "in the rust of the findings"
	inTest          = "in an adhesion test"
	inTaxRate       = "in the rate of tax"
	inExistingBasis = "in the existing_basis of tax"
	inTreatment     = "in a tax treatment"
	inTaxSystems    = "under tax.systems"
	inTreatments    = "in the treatments of tax"
	inCredit        = "in a credit of tax"
	underLetterhead = "under letterhead"
	underSurvey     = "under survey"
	inFromFilm      = "in the from_film of a life"
	inFindings      = "under findings"
	underTax        = "under tax"
	inPlanned       = "in the eligibility of a system"
	inEstimate      = "in an estimate"
	inCoolRoof      = "in a cool_roof"
)

// homeOf says where a key belongs; "" when it belongs nowhere.
func homeOf(key string) string {
	for _, h := range homes {
		if slices.Contains(h.keys, key) {
			return h.where
		}
	}
	return ""
}

// synonyms are words that people write for keys, with the keys meant: the one
// that the section has counts.
var synonyms = map[string][]string{
	"cost":          {"amount", "costs"},
	"price":         {"unit_price"},
	"unit_cost":     {"unit_price"},
	"rate":          {"discount_rate", "unit_price"},
	"total":         {"amount"},
	"lump_sum":      {"amount", "lump"},
	"quantity":      {"per", "quantities"},
	"unit":          {"per"},
	"years":         {"period", "life", "every"},
	"lifetime":      {"life"},
	"service_life":  {"life"},
	"horizon":       {"period"},
	"study_period":  {"period"},
	"discount":      {"discount_rate"},
	"discount_rate": {"after_tax_discount_rate"},
	"date":          {"base_date"},
	"client":        {"prepared_for"},
	"owner":         {"prepared_for"},
	"author":        {"prepared_by"},
	"name":          {"title", "item", "step"},
	"label":         {"name", "item"},
	"description":   {"item", "name", "title", "step"},
	"next":          {"then"},
	"followed_by":   {"then"},
	"replaced_by":   {"then"},
	"existing":      {"in_place"},
	"max":           {"at_most", "high"},
	"times":         {"at_most"},
	"interval":      {"every"},
	"frequency":     {"every"},
	"annual":        {"annual_costs"},
	"maintenance":   {"annual_costs"},
	"periodic":      {"periodic_costs"},
	"initial_costs": {"first_costs"},
	"cost_items":    {"costs", "first_costs"},
	"disposal":      {"removal"},
	"salvage":       {"residual"},
	"baseline":      {"base_case"},
	"base":          {"base_case"},
	"system":        {"start"},
	"delay":         {"wait"},
	"after":         {"wait"},
	"reason":        {"rule"},
	"note":          {"source", "finding"},
	"reference":     {"source"},
	"growth_rate":   {"growth"},
	"min":           {"low"},
	"lo":            {"low"},
	"hi":            {"high"},
	"mode":          {"likely"},
	"most_likely":   {"likely"},
	"stdev":         {"sd"},
	"stddev":        {"sd"},
	"size":          {"area"},
	"options":       {"alternatives"},
	"scenarios":     {"alternatives"},
	"version":       {"roofyears"},
	"colors":        {"colours"},
	"address":       {"contact"},
	"albedo":        {"reflectance_new"},
	"reflectance":   {"reflectance_new"},
	"eer":           {"seer"},
	"efficiency":    {"heating_efficiency"},
	"gas_price":     {"heating_price"},
	"labor":         {"labour"},
	"lumpsum":       {"lump"},
	"color":         {"colour"},
	"volume_solids": {"solids"},
	"dft":           {"film"},
	"waste":         {"loss"},
	"coverage":      {"covers"},
	"surveyor":      {"by"},
	"purlin":        {"purlins"},
	"skylights":     {"openings"},
	"fasteners":     {"screws"},
	"pipes":         {"penetrations"},
	"branding":      {"letterhead"},
	"layers":        {"coverings"},
	"ponding":       {"ponding_share"},
	"code":          {"building_code"},
	"adhesion":      {"adhesion_tests"},
	"parapets":      {"masonry_parapets"},
	"seismic":       {"seismic_category"},
	"reserve":       {"load_reserve"},
	"load":          {"added_load", "load_reserve"},
	"tax":           {keyTreatment},
	"treatment":     {keyTreatment},
	"tax_rate":      {"rate"},
	"basis":         {"existing_basis", "reduces_basis"},
}
