package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mayImport says which packages each room may import, of the project and of
// others. "std" is the standard library. Data goes one way: file → study →
// result → document → writer. A new arrow is a decision: argue for it in
// DEVELOPERS.md before adding it here.
var mayImport = map[string][]string{
	"roofyears/lcc":                     {"std", "github.com/shopspring/decimal"},
	"roofyears/lcc/checks":              {"std", "pgregory.net/rapid"},
	"roofyears/lcc/coolroof":            {"std", "roofyears/lcc", "github.com/shopspring/decimal"},
	"roofyears/lcc/budget":              {"std"},
	"roofyears/lcc/plan":                {"std", "roofyears/lcc", "roofyears/lcc/budget", "github.com/shopspring/decimal"},
	"roofyears/lcc/risk":                {"std", "roofyears/lcc"},
	"roofyears/lcc/takeoff":             {"std", "roofyears/lcc", "github.com/shopspring/decimal"},
	"roofyears/lcc/tax":                 {"std", "roofyears/lcc", "github.com/shopspring/decimal"},
	"roofyears/lcc/vary":                {"std", "roofyears/lcc", "roofyears/lcc/risk", "github.com/shopspring/decimal"},
	"roofyears/scenarios/contrast":      {"std"},
	"roofyears/scenarios":               {"std", "roofyears/lcc", "roofyears/lcc/coolroof", "roofyears/lcc/takeoff", "roofyears/lcc/tax", "roofyears/scenarios/units", "roofyears/scenarios/geometry", "roofyears/scenarios/coating", "roofyears/scenarios/contrast", "roofyears/scenarios/eligibility", "roofyears/scenarios/cooling", "github.com/shopspring/decimal", "go.yaml.in/yaml/v4", "github.com/bojanz/currency"},
	"roofyears/scenarios/portfolio":     {"std", "roofyears/lcc", "roofyears/scenarios", "github.com/shopspring/decimal"},
	"roofyears/scenarios/units":         {"std", "github.com/shopspring/decimal"},
	"roofyears/scenarios/geometry":      {"std"},
	"roofyears/scenarios/coating":       {"std", "roofyears/scenarios/units", "github.com/shopspring/decimal"},
	"roofyears/scenarios/eligibility":   {"std", "github.com/shopspring/decimal"},
	"roofyears/scenarios/cooling":       {"std", "github.com/shopspring/decimal"},
	"roofyears/report":                  {"std", "roofyears/lcc", "roofyears/lcc/coolroof", "roofyears/lcc/takeoff", "roofyears/lcc/risk", "roofyears/lcc/vary", "roofyears/lcc/budget", "roofyears/lcc/plan", "roofyears/lcc/tax", "github.com/shopspring/decimal", "github.com/bojanz/currency"},
	"roofyears/report/roofbook":         {"std", "roofyears/report", "github.com/xuri/excelize/v2"},
	"roofyears/report/text":             {"std", "roofyears/report", "github.com/jedib0t/go-pretty/v6"},
	"roofyears/report/html":             {"std", "roofyears/report", "roofyears/scenarios/contrast", "github.com/go-echarts/go-echarts/v2"},
	"roofyears/report/workbook":         {"std", "roofyears/lcc", "roofyears/report", "github.com/shopspring/decimal", "github.com/xuri/excelize/v2"},
	"roofyears/report/html/verify":      {"std", "roofyears/report", "roofyears/report/html", "golang.org/x/net/html"},
	"roofyears/report/html/browsertest": {"std", "github.com/chromedp/chromedp", "github.com/chromedp/cdproto"},
	"roofyears/cmd/roofyears": {"std", "roofyears/lcc", "roofyears/lcc/budget", "roofyears/lcc/plan", "roofyears/lcc/tax", "roofyears/lcc/coolroof", "roofyears/lcc/takeoff", "roofyears/scenarios/units", "roofyears/scenarios/coating", "roofyears/lcc/risk", "roofyears/lcc/vary", "roofyears/scenarios", "roofyears/scenarios/portfolio", "roofyears/report", "roofyears/report/roofbook", "roofyears/report/workbook", "roofyears/report/text", "roofyears/report/html", "roofyears/report/html/verify",
		"github.com/shopspring/decimal", "github.com/urfave/cli/v2", "github.com/schollz/progressbar/v3", "golang.org/x/term"},
}

func TestImportsRunOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "roofyears/...").Output()
	require.NoError(t, err)
	seen := map[string]bool{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var pkg struct {
			ImportPath                         string
			Imports, TestImports, XTestImports []string
		}
		if err := dec.Decode(&pkg); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		seen[pkg.ImportPath] = true
		allowed, known := mayImport[pkg.ImportPath]
		if !assert.True(t, known, "%s is a new package: say what it may import", pkg.ImportPath) {
			continue
		}
		tests := slices.Concat(pkg.TestImports, pkg.XTestImports)
		assert.True(t, !slices.Contains(tests, "pgregory.net/rapid") || slices.Contains(tests, "roofyears/lcc/checks"),
			"%s has property tests, which draw by one seed when they import roofyears/lcc/checks", pkg.ImportPath)
		for _, imported := range pkg.Imports {
			assert.True(t, permitted(imported, allowed), "%s may not import %s", pkg.ImportPath, imported)
		}
	}
	for pkg := range mayImport {
		assert.True(t, seen[pkg], "%s is listed, but there is no such package", pkg)
	}
}

// permitted tells whether an import is among the allowed packages. A package
// of the project is named exactly, another module by its root.
func permitted(imported string, allowed []string) bool {
	first, _, _ := strings.Cut(imported, "/")
	own := first == "roofyears"
	for _, a := range allowed {
		switch {
		case a == imported:
			return true
		case a == "std" && !own && !strings.Contains(first, "."):
			return true
		case !own && strings.HasPrefix(imported, a+"/"):
			return true
		}
	}
	return false
}
