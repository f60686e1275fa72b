package units

// System is a system of units, in which the figures of one table are shown.
// There is no third: a table never mixes them.
type System int

// The systems. The zero value is US.
const (
	US     System = iota // US customary units
	Metric               // units of the International System, and the litre
)

// Kind is a kind of figure on a roof. It is narrower than a dimension: a
// seam's length and a film's thickness are both lengths, and are shown in
// different units.
type Kind int

// The kinds.
const (
	Lengths    Kind = iota // of seams, edges, panels
	Areas                  // of roofs
	Films                  // thicknesses of coatings
	Volumes                // of paint
	Coverages              // paint on an area
	Spreads                // area a volume of paint covers
	Loads                  // weights on an area
	Peels                  // forces per width, of peel tests
	Densities              // of coatings
	kindsCount             // how many there are
)

var shown = [kindsCount][2]Unit{
	Lengths:   {Foot, Metre},
	Areas:     {SquareFoot, SquareMetre},
	Films:     {Mil, Micrometre},
	Volumes:   {Gallon, Litre},
	Coverages: {GallonPerSquare, LitrePerSquareMetre},
	Spreads:   {SquareFootPerGallon, SquareMetrePerLitre},
	Loads:     {PoundPerSquareFoot, KilonewtonPerSquareMetre},
	Peels:     {PoundPerInch, NewtonPerMillimetre},
	Densities: {PoundPerGallon, KilogramPerLitre},
}

// Unit names the unit in which the system shows a kind of figure.
func (s System) Unit(k Kind) Unit { return shown[k][s] }
