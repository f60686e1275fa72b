package report

import "github.com/shopspring/decimal"

// Document is a report before it is laid out.
type Document struct {
	Title    string
	Currency Currency
	Facts    []Fact // who, for whom, when
	Sections []Section
	Version  string // of the program that made it; "" when unknown
	Proof    *Proof // what makes it again; nil when it carries no study
	Paper    Paper  // that it is laid out for; "" leaves it to the printer
	Wide     bool   // printed across the sheet, for tables of many columns

	Letterhead Letterhead // colours and contact are for the head; the note is a section
	Logo       *Logo      // nil when there is none
}

// Fact is a short labelled statement at the head of a report.
type Fact struct{ Label, Text string }

// Section is a part of a report with a heading. ID is unique, and fit for a
// link: lower-case letters and hyphens.
type Section struct {
	ID, Heading string
	Blocks      []Block
	Appendix    bool // looked up rather than read; printed last, from a new sheet
	Live        bool // works in a page with script only; never printed, and other writers leave it out
}

// Block is one of Paragraph, List, Table, Figure, Timeline, Fold and WhatIf.
type Block interface{ block() }

// Role says what a paragraph or a list is for.
type Role uint8

// The roles of text.
const (
	Plain   Role = iota
	Answer       // the answer sentence
	Lead         // says what the figure or table that follows shows
	Remark       // something about the inputs that deserves a look
	Caution      // something that can hurt
	Aside        // says what kind of text it stands by
)

// Paragraph is running text.
type Paragraph struct {
	Role Role
	Text string
}

// List is a list of sentences.
type List struct {
	Role  Role
	Items []string
}

// Fold is detail that the reader opens when wanted; printed open.
type Fold struct {
	ID, Summary string
	Blocks      []Block
}

// CellKind says what a cell's number measures.
type CellKind uint8

// The kinds of cells.
const (
	TextCell     CellKind = iota
	MoneyCell             // study currency, to its minor unit
	RateCell              // fraction a year, shown in per cent
	RatioCell             // a plain ratio
	YearCell              // a moment in years from the base date
	CountCell             // a whole number
	RoughCell             // study currency, in whole units: an amount of a simulation
	QuantityCell          // so much of something, with its unit
)

// Cell is one entry of a table: a text or a number with its kind. A cell
// whose State is set has no number, and State says so in a word or two. Note
// explains a cell at the foot of its table.
type Cell struct {
	Kind   CellKind
	Text   string
	Number decimal.Decimal
	Digits int32  // of a quantity: decimals at most
	Unit   string // of a quantity, as people write it; "" is pieces
	State  string
	Note   string
	Hue    int    // of a map: place in the palette from 1; 0 is none
	Link   string // relative address of a page about what the cell names; "" is none
}

// Column is the head of a column.
type Column struct {
	Head     string
	Numeric  bool // aligned as numbers
	Unbroken bool // never wrapped
	Lowest   bool // of the lowest alternative
	OnScreen bool // left out on paper, where there is no room
}

// RowRole says how a row of a table stands out.
type RowRole uint8

// The roles of rows.
const (
	Body  RowRole = iota
	Total         // a sum of rows above
	Group         // a heading within the table
)

// Row is a row of a table. Its first cell is its head.
type Row struct {
	Role  RowRole
	Cells []Cell
}

// Table is a table of typed cells. ID is unique in the document.
type Table struct {
	ID, Caption string
	Columns     []Column
	Rows        []Row
	PageOnly    bool // detail that the terminal leaves out
	Map         bool // letters in coloured cells
	Sift        *Sift
}

// Sift lets the reader of a page that runs script sort the rows of a table by
// any column, and look at some of them only: those with a text in a column of
// Search, or with one entry in a column of Choose. The last row is then a
// total, whose amounts are added up for the rows that are shown. Columns are
// counted from 0.
type Sift struct {
	Noun   string // what a row is, such as "roof"
	Find   string // asks for a text of Search
	Search []int
	Choose []int
	Tell   []int // columns whose sums are told above the table, as well as below it
}

// FigureKind says how a figure is drawn.
type FigureKind uint8

// The kinds of figures.
const (
	Lines   FigureKind = iota // a line for each series over a numeric x
	Steps                     // as Lines, each value held until the next
	Columns                   // a bar for each x, one series
	Stacked                   // horizontal bars, one for each category, series stacked
	Swing                     // horizontal bars of two series that go both ways from zero
	Points                    // a point for each value of a series, which has an x and a label for each
)

// Series is a named row of values, one for each entry of the x axis, or, of
// points, for each entry of X.
type Series struct {
	Name   string
	Values []decimal.Decimal
	X      []decimal.Decimal // of points only
	Labels []string          // of points only: what each is called
	Hue    int               // of points only: place in the palette from 1
}

// Axis is an axis of a figure.
type Axis struct {
	Title      string
	Kind       CellKind
	Values     []decimal.Decimal // of a numeric axis
	Categories []string          // of an axis of names
}

// Mark points at a place of a figure. A mark without Y is a line across.
type Mark struct {
	Label string
	X     decimal.Decimal
	Y     *decimal.Decimal
}

// Figure is a chart. Table is the ID of what holds the table with the same
// numbers, TableName what that table is called, "" when it stands beside the
// chart, and TablePlace where it is; "" when the name says enough.
type Figure struct {
	ID, Title, Summary string
	Kind               FigureKind
	X, Y               Axis
	Top                decimal.Decimal // upper end of the y axis; 0 lets the writer choose
	Series             []Series
	Hue                int // place in the palette of the first series, so that an alternative keeps its colour
	Marks              []Mark
	Table, TableName   string
	TablePlace         string
}

// Timeline shows what stands on the roof when, a row for each alternative.
type Timeline struct {
	ID, Title, Summary string
	Years              int // the axis runs from 0 to Years
	BaseYear           int // calendar year of year 0
	Rows               []TimelineRow
}

// TimelineRow is one alternative.
type TimelineRow struct {
	Name string
	Bars []TimelineBar
}

// TimelineBar is a stretch of years; the mark at its start says what is done.
type TimelineBar struct {
	From, To int
	Label    string
	Start    string // what is done at From; "" when nothing is
	Same     bool   // the system of the bar before, renewed
}

func (Paragraph) block() {}
func (List) block()      {}
func (Fold) block()      {}
func (Table) block()     {}
func (Figure) block()    {}
func (Timeline) block()  {}
func (WhatIf) block()    {}
