package scenarios

import "slices"

// The keys of each section, in the order in which messages list them.
var (
	rootKeys     = []string{"roofyears", "study", "roof", "findings", "systems", "alternatives", "letterhead"}
	studyKeys    = []string{"title", "prepared_for", "prepared_by", "prepared_on", "valid_until", "base_date", "period", "currency", "timing", "rate_basis", "discount_rate", "inflation", "escalation"}
	roofKeys     = []string{"area", "quantities"}
	systemKeys   = []string{"name", "work", "in_place", "life", "first_costs", "annual_costs", "periodic_costs", "recoat", "removal", "residual", "eligibility", "then"}
	recoatKeys   = []string{"at_most", "life", "costs"}
	itemKeys     = []string{"item", "amount", "unit_price", "per", "category", "growth", "age_from", "every", "source"}
	alternateKey = []string{"name", "start", "base_case", "wait", "ruled_out"}
	waitKeys     = []string{"on", "years"}
	rulingKeys   = []string{"rule", "finding", "source"}
	letterKeys   = []string{"logo", "colours", "contact", "note"}
	colourKeys   = []string{"accent", "heading"}

	findingKeys  = []string{"coverings", "covering", "surface", "existing_coating", "base_sound", "water_soaked", "wet_share", "wet_found_by", "wet_limit", "ponding_share", "adhesion_tests", "rust", "section_loss", "deck", "deck_sound", "load_reserve", "pull_outs_tested", "masonry_parapets", "seismic_category", "building_code", "energy_code", "insulation_above_deck", "in_thermal_envelope", "asbestos"}
	statedKeys   = []string{"value", "source"}
	wetLimitKeys = []string{"share", "replace_all", "source"}
	rustKeys     = []string{"light", "scaled", "perforated", "source"}
	testKeys     = []string{"coating", "least", "places"}
	plannedKeys  = []string{"coating", "separate_system", "added_load", "share_of_roof", "wet_part_replaced_by", "panels_replaced_by", "drainage_corrected_by", "deck_repaired_by", "parapets_braced_by", "asbestos_handled_by", "insulation_upgraded_by", "insulation_waived", "fire_class_shown", "wind_shown"}
)

// homes say where keys belong.
var homes = []struct {
	where string
	keys  []string
}{
	{"at the top of the file", rootKeys},
	{"under study", studyKeys},
	{"under roof", roofKeys},
	{"in a system", systemKeys},
	{"in the recoat of a system", recoatKeys},
	{"in a cost item", itemKeys},
	{"in an alternative", alternateKey},
	{"in the wait of an alternative", waitKeys},
	{"in the ruled_out of an alternative", rulingKeys},
	{"in an estimate", estimateKeys},
	{"in a distribution", meanKeys},
	{underLetterhead, letterKeys},
	{underLetterhead, colourKeys},
	{inFindings, findingKeys},
	{inPlanned, plannedKeys},
	{inFindings, wetLimitKeys},
	{inFindings, rustKeys},
	{inFindings, testKeys},
}

const (
	underLetterhead = "under letterhead"
	inFindings      = "under findings"
	inPlanned       = "in the eligibility of a system"
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
	"lump_sum":      {"amount"},
	"quantity":      {"per", "quantities"},
	"unit":          {"per"},
	"years":         {"period", "life", "every"},
	"lifetime":      {"life"},
	"service_life":  {"life"},
	"horizon":       {"period"},
	"study_period":  {"period"},
	"discount":      {"discount_rate"},
	"date":          {"base_date"},
	"client":        {"prepared_for"},
	"owner":         {"prepared_for"},
	"author":        {"prepared_by"},
	"name":          {"title", "item"},
	"label":         {"name", "item"},
	"description":   {"item", "name", "title"},
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
	"branding":      {"letterhead"},
	"layers":        {"coverings"},
	"ponding":       {"ponding_share"},
	"code":          {"building_code"},
	"adhesion":      {"adhesion_tests"},
	"parapets":      {"masonry_parapets"},
	"seismic":       {"seismic_category"},
	"reserve":       {"load_reserve"},
	"load":          {"added_load", "load_reserve"},
}
