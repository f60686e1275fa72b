package lcc

// Category is a cost category. Escalation is stated per category, and only
// construction bears residual value.
type Category uint8

// The cost categories, in the order in which tables show them.
const (
	Construction Category = iota
	Maintenance
	Energy
	Disposal
	Disruption
	Fees
	Other
	NumCategories                // how many there are
	NoCategory    = ^Category(0) // a residual value line: it is no cost
)

var categoryNames = [NumCategories]string{
	"construction", "maintenance", "energy", "disposal", "disruption", "fees", "other",
}

// String gives the name used in study files and answers; "" for [NoCategory].
func (c Category) String() string {
	if c >= NumCategories {
		return ""
	}
	return categoryNames[c]
}

// CategoryNames lists the names, in table order.
func CategoryNames() []string { return append([]string(nil), categoryNames[:]...) }

// Kind says why a ledger line is paid.
type Kind uint8

// The kinds of ledger lines. The first four are investment-related, annual
// and periodic costs are operation-related [10CFR436, 436.21; HB135].
const (
	FirstCost     Kind = iota // at time 0
	Replacement               // first costs of a system installed later
	Recoat                    // renewal of a coating
	Removal                   // paid when a system is left: disposal, scrap credit
	Annual                    // every year of a spell
	Periodic                  // every m years from the installation
	ResidualValue             // credit at the end of the study period, negative
)

var kindNames = [...]string{"first", "replacement", "recoat", "removal", "annual", "periodic", "residual"}

// String gives the name used in answers.
func (k Kind) String() string { return kindNames[k] }

// Investment tells whether the line counts as investment-related in the
// savings-to-investment ratio; the residual value does, with its sign.
func (k Kind) Investment() bool { return k != Annual && k != Periodic }
