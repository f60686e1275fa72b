package scenarios

import "slices"

// The keys of each section, in the order in which messages list them.
var (
	rootKeys     = []string{"roofyears", "study", "roof", "systems", "alternatives", "letterhead"}
	studyKeys    = []string{"title", "prepared_for", "prepared_by", "prepared_on", "valid_until", "base_date", "period", "currency", "timing", "rate_basis", "discount_rate", "inflation", "escalation"}
	roofKeys     = []string{"area", "quantities"}
	systemKeys   = []string{"name", "work", "in_place", "life", "first_costs", "annual_costs", "periodic_costs", "recoat", "removal", "residual", "cool_roof", "then"}
	recoatKeys   = []string{"at_most", "life", "costs"}
	itemKeys     = []string{"item", "amount", "unit_price", "per", "category", "growth", "age_from", "every", "source"}
	alternateKey = []string{"name", "start", "base_case", "wait", "ruled_out"}
	waitKeys     = []string{"on", "years"}
	rulingKeys   = []string{"rule", "finding", "source"}
	letterKeys   = []string{"logo", "colours", "contact", "note"}
	colourKeys   = []string{"accent", "heading"}
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
	{inCoolRoof, coolRoofKeys},
	{"in an alternative", alternateKey},
	{"in the wait of an alternative", waitKeys},
	{"in the ruled_out of an alternative", rulingKeys},
	{"in an estimate", estimateKeys},
	{"in a distribution", meanKeys},
	{underLetterhead, letterKeys},
	{underLetterhead, colourKeys},
}

const underLetterhead = "under letterhead"

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
	"albedo":        {"reflectance_new"},
	"reflectance":   {"reflectance_new"},
	"eer":           {"seer"},
	"efficiency":    {"heating_efficiency"},
	"gas_price":     {"heating_price"},
	"branding":      {"letterhead"},
}
