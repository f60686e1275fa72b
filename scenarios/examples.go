package scenarios

import (
	"embed"
	"slices"
	"strings"
)

//go:embed examples/*.yaml examples/*.png examples/*.csv
var examples embed.FS

const starterName = "starter"

// Example gives an embedded example study by its name, as "cold-store".
func Example(name string) (Source, bool) {
	if !slices.Contains(ExampleNames(), name) {
		return Source{}, false
	}
	return embedded(name), true
}

// ExampleNames lists the embedded examples in the order of the alphabet.
func ExampleNames() []string {
	entries, err := examples.ReadDir("examples")
	if err != nil {
		panic(err) // the directory is part of the program
	}
	var names []string
	for _, e := range entries {
		if name, study := strings.CutSuffix(e.Name(), ".yaml"); study && name != starterName {
			names = append(names, name)
		}
	}
	return names
}

// PortfolioExample is the example study that is a template for many roofs.
const PortfolioExample = "portfolio"

// ExampleTable gives the table of roofs that belongs to an example study.
func ExampleTable(name string) (Source, bool) {
	if name != PortfolioExample {
		return Source{}, false
	}
	file := name + ".csv"
	text, err := examples.ReadFile("examples/" + file)
	if err != nil {
		panic(err) // the file is part of the program
	}
	return Source{Name: file, Text: text}, true
}

// Starter is a small, commented study to begin a file of one's own with. It
// is read without an error.
func Starter() Source {
	return embedded(starterName)
}

func embedded(name string) Source {
	text, err := examples.ReadFile("examples/" + name + ".yaml")
	if err != nil {
		panic(err) // the file is part of the program
	}
	return Source{Name: name + ".yaml", Text: text, Open: func(name string) ([]byte, error) {
		return examples.ReadFile("examples/" + name)
	}}
}
