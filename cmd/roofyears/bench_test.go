package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"roofyears/scenarios"
)

// times runs a whole process again and again.
func times(b *testing.B, args ...string) {
	path := built(b)
	for b.Loop() {
		cmd := exec.Command(path, args...)
		cmd.Dir = b.TempDir()
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("%v: %s", err, out)
		}
	}
}

// BenchmarkStart is the start-up of the command: the goal is under 30 ms.
func BenchmarkStart(b *testing.B) { times(b, "--version") }

// BenchmarkCompare answers an example on the terminal.
func BenchmarkCompare(b *testing.B) { times(b, "compare", "example:school") }

// BenchmarkPages writes a hundred pages in one run: the goal is under 10 s.
func BenchmarkPages(b *testing.B) {
	src, _ := scenarios.Example("school")
	dir := b.TempDir()
	args := []string{"report", "--into", filepath.Join(dir, "pages")}
	for i := range 100 {
		path := filepath.Join(dir, fmt.Sprintf("roof-%03d.yaml", i))
		if err := os.WriteFile(path, src.Text, 0o600); err != nil {
			b.Fatal(err)
		}
		args = append(args, path)
	}
	times(b, args...)
}

// BenchmarkReport writes the page of the example that has most to derive: the
// goal is under 300 ms.
func BenchmarkReport(b *testing.B) { times(b, "report", "example:cold-store", "-o", "page.html") }

// BenchmarkPortfolio compares 100,000 roofs of four alternatives over 40 years,
// CSV in to CSV out: the goal is under 300 ms.
func BenchmarkPortfolio(b *testing.B) {
	var table strings.Builder
	table.WriteString("id,name,roof.area,roof.quantities.wet_insulation,systems.existing.life,systems.existing.annual_costs[1].amount\n")
	for i := range 100_000 {
		fmt.Fprintf(&table, "R%06d,Roof %d,%d,%d,%d,%d\n", i, i, 5000+i%55_000, i%900, 1+i%10, 500+i*7%9500)
	}
	path := filepath.Join(b.TempDir(), "roofs.csv")
	if err := os.WriteFile(path, []byte(table.String()), 0o600); err != nil {
		b.Fatal(err)
	}
	times(b, "portfolio", "example:portfolio", path, "-o", "answers.csv")
}
