package scenarios

import (
	"time"

	"github.com/bojanz/currency"

	"roofyears/lcc"
	"roofyears/lcc/coolroof"
	"roofyears/lcc/takeoff"
	"roofyears/lcc/tax"
	"roofyears/scenarios/eligibility"
	"roofyears/scenarios/units"
)

// Format is the version of the file format that is read.
const Format = "1"

// File is a study file that was read without an error.
type File struct {
	Source    Source
	Study     *lcc.Study
	Warnings  []lcc.Warning // the same as the diagnostics of severity Warn
	Structure []Setting

	CoolRoofs []coolroof.Working // in the order of the systems
	TakeOff   *takeoff.TakeOff   // nil when there is none
	Tax       *tax.Terms         // nil when there is none

	Letterhead Letterhead
	Logo       *Logo // nil when there is none, or Source.Open is
	Portfolio  Portfolio

	root  *node
	kinds map[lcc.Ref]kind // of the inputs that are written in the file
}

// Setting is a whole number of the file that is not an estimate: the study
// period, how many recoats, every how many years, how long a wait.
type Setting struct {
	Path, Label string
	Value       string // in years, or times for a number of recoats
	Source      string // always "": the file has no place for one
}

// reader is the reading of one file.
type reader struct {
	notes
	study      *lcc.Study
	settings   []Setting
	warnings   []lcc.Warning
	kinds      map[lcc.Ref]kind     // of the inputs that are written in the file
	places     map[string]place     // of inputs, systems and alternatives, by path
	systems    map[string]int       // by key
	systemKeys []string             // in the order of the file
	quantities map[string]*measured // by key; "area" too
	joined     []joinedText
	follows    []following // inputs that move with another, to be found when all are read
	open       func(name string) ([]byte, error)
	coolRoofs  []coolRoof
	coolWrong  []string // keys of systems whose cool_roof was told to be wrong
	letterhead Letterhead
	logo       *Logo
	portfolio  Portfolio
	described  descriptions // of keys; nil before one is asked for

	judging   bool                 // the file states findings, so rules are put to it
	found     eligibility.Findings // of the section
	options   []eligibility.Option // by system
	plannedAt place                // of the first eligibility of a system

	units      units.System // of the plan area
	areaStated bool         // roof.area is in the file
	hasPlanes  bool         // the survey has planes, from which a plan area can follow
	measures   []takeoff.Measure
	suspected  []suspicion
	takeOff    *takingOff // nil when there is none

	inflationStated bool            // rightly or wrongly
	treatments      []tax.Treatment // that costs name, each once; lcc.Item.Tax counts them from 1
	treatedAt       place           // of the first treatment that a cost states
	tax             *tax.Terms      // nil when there is none
}

// suspicion is a warning that is found while the file is read.
type suspicion struct {
	at   place
	path string
	message
}

// joinedText is a text in braces that held a comma.
type joinedText struct {
	at         place
	path, text string
}

// measured is a quantity that items are priced by.
type measured struct {
	ref   lcc.Ref
	unit  string // "" for pieces
	used  bool
	found bool // a defect that the survey found
}

func (r *reader) fail(at place, path string, m message) { r.notes.add(Error, at, path, m) }

func (r *reader) warn(at place, path string, m message) {
	r.notes.add(Warn, at, path, m)
	r.warnings = append(r.warnings, lcc.Warning{About: path, Text: m.what})
}

func newReader(src Source) *reader {
	return &reader{
		notes:      notes{file: src.Name},
		study:      &lcc.Study{Inflation: lcc.NoRef},
		kinds:      map[lcc.Ref]kind{},
		places:     map[string]place{},
		systems:    map[string]int{},
		quantities: map[string]*measured{},
		open:       src.Open,
	}
}

// Read reads a study file. It gives the study, or nil when a diagnostic is an
// error. Diagnostics stand in the order of the file; warnings are told of a
// file without errors only. At most 200 errors or warnings are told, and the
// number of the rest.
func Read(src Source) (*File, []Diagnostic) {
	r := newReader(src)
	text, at, m, ok := decode(src.Text)
	if !ok {
		r.text = string(src.Text[:min(len(src.Text), MaxSize)])
		r.fail(at, "", m)
		return nil, r.all()
	}
	r.text = text
	return r.file(src, parse(text, func(at place, m message) { r.fail(at, "", m) }))
}

// file reads a study from its nodes; none when they could not be read.
func (r *reader) file(src Source, root *node) (*File, []Diagnostic) {
	if root != nil {
		r.root(root)
	}
	if r.failed() {
		return nil, r.all()
	}
	r.judge()
	r.remark()
	return &File{
		Source: src, Study: r.study, Warnings: r.warnings, Structure: r.settings, CoolRoofs: r.coolRoofsOf(), TakeOff: r.takenOff(), Tax: r.tax,
		Letterhead: r.letterhead, Logo: r.logo, Portfolio: r.portfolio, root: root, kinds: r.kinds,
	}, r.all()
}

// root reads the whole file.
func (r *reader) root(n *node) {
	switch n.shape {
	case null:
		r.fail(place{1, 1}, "", emptyFile())
		return
	case broken:
		return
	case mapping:
	default:
		r.fail(n.place, "", notStudy(n.shape))
		return
	}
	if !r.format(n) {
		return
	}
	s, ok := r.section(n, "", atTop, rootKeys)
	if !ok {
		return
	}
	r.studyOf(s.need("study"))
	r.peekSurvey(s.values["survey"])
	if r.hasPlanes && !s.has("roof") {
		r.quantities["area"] = &measured{ref: lcc.NoRef, used: true} // to follow from the planes
	} else {
		r.roof(s.need("roof"))
	}
	r.survey(s.get("survey"))
	r.openTakeOff(s.get("takeoff"))
	r.findings(s.get("findings"))
	r.systemsOf(s.need("systems"))
	r.taxOf(s.get("tax"))
	r.alternatives(s.need("alternatives"))
	r.letterheadOf(s.get("letterhead"))
	r.portfolioOf(s.get("portfolio"))
	r.resolveMoves()
	if alternatives := s.get("alternatives"); !r.failed() {
		r.weigh(alternatives.place)
	}
}

// format checks the format version; another version means other keys, so
// nothing more is read.
func (r *reader) format(n *node) bool {
	for i, key := range n.keys {
		if v := n.values[i]; key.text == "roofyears" && v.shape != broken {
			if v.shape == scalar && v.text == Format {
				return true
			}
			r.fail(v.place, "roofyears", otherFormat(v.shape, v.text))
			return false
		}
	}
	r.fail(n.place, "", missingFormat())
	return true
}

// The words for when yearly costs fall due, and for what a rate is.
var (
	timings = []string{lcc.EndOfYear.String(), lcc.MidYear.String()}
	bases   = []string{lcc.Real.String(), lcc.Nominal.String()}
)

// studyOf reads what the study says of itself, its rates and its period.
func (r *reader) studyOf(n *node) {
	s, ok := r.section(n, "study", underStudy, studyKeys)
	if !ok {
		return
	}
	about := &r.study.About
	about.Title = s.needLine("title")
	about.PreparedFor = s.line("prepared_for")
	about.PreparedBy = s.line("prepared_by")
	s.need("base_date")
	about.BaseDate, about.PreparedOn, about.ValidUntil = s.date("base_date"), s.date("prepared_on"), s.date("valid_until")
	if about.ValidUntil != "" && about.ValidUntil < max(about.PreparedOn, about.BaseDate) {
		r.fail(s.values["valid_until"].place, s.sub("valid_until"), validBefore(about.ValidUntil))
	}
	about.Currency, about.Digits = s.currency()
	r.study.Period, _ = s.whole("period", 1, lcc.MaxPeriod, labelPeriod)
	r.study.Timing = lcc.Timing(max(0, s.word("timing", timings)))
	s.need("rate_basis")
	r.study.Basis = lcc.Basis(max(0, s.word("rate_basis", bases)))
	if v := s.need("discount_rate"); v != nil {
		r.study.Rate = r.estimate(v, rate, subject{path: "study.discount_rate", label: labelDiscount})
	}
	r.inflationStated = s.has("inflation")
	if v := s.get("inflation"); v != nil {
		r.study.Inflation = r.estimate(v, rate, subject{path: "study.inflation", label: labelInflation})
	} else if r.study.Basis == lcc.Nominal && !s.has("inflation") {
		r.fail(s.place("rate_basis"), "study", inflationMissing())
	}
	r.escalation(s.get("escalation"))
}

// date reads a day of the calendar, YYYY-MM-DD; "" when the key is absent or
// wrong.
func (s *section) date(key string) string {
	text := s.line(key)
	if text == "" {
		return ""
	}
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		s.r.fail(s.values[key].place, s.sub(key), notDate(text))
		return ""
	}
	return text
}

// currency reads a currency code and knows the digits of its minor unit.
func (s *section) currency() (string, int32) {
	code := s.needLine("currency")
	if code == "" {
		return "", 0
	}
	digits, ok := currency.GetDigits(code)
	if !ok {
		s.r.fail(s.values["currency"].place, s.sub("currency"), unknownCurrency(code, currency.IsValid))
	}
	return code, int32(digits)
}
