package main

import (
	"bytes"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/report/html"
	"roofyears/scenarios/portfolio"
)

// roofsPage is a page about all roofs of a table that is to be written.
type roofsPage struct {
	path  string
	paper report.Paper
	table string // name of the table
}

// roofsPageFlags are those of the page.
func roofsPageFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "page", Usage: "write one page about all roofs to `PAGE.html`: totals, ranking, map, and the plan if one is made"},
		&cli.StringFlag{Name: "paper", Usage: "lay the page out for `PAPER`: letter or a4; unless given, letter for roofs in ft2, a4 for those in m2"},
	}
}

// roofsPageOf reads what the command line says of the page; nil when none is
// asked for.
func roofsPageOf(ctx *cli.Context, templates []portfolio.Template, table string) (*roofsPage, error) {
	path := ctx.String("page")
	if path == "" {
		if ctx.String("paper") != "" {
			return nil, usageError{"portfolio", "--paper is for the page; say --page PAGE.html too"}
		}
		return nil, nil
	}
	paper, err := paperOf(ctx, "portfolio", templates[0].File.Study.About.AreaUnit)
	return &roofsPage{path, paper, filepath.Base(table)}, err
}

// roomFor refuses more roofs than a page may have.
func (p *roofsPage) roomFor(roofs int) error {
	if p == nil || roofs <= report.MostRoofsOnPage {
		return nil
	}
	return &portfolio.Unreadable{File: p.table, Reason: fmt.Sprintf("it has more than %d roofs, the most that a page may have; without --page they can all be done", report.MostRoofsOnPage)}
}

// openPage begins to write the page; nil when none is asked for.
func (p *roofsPage) open() (*aside, error) {
	if p == nil {
		return nil, nil
	}
	return openAside(p.path)
}

// writePage writes the page, when one is asked for.
func (w *roofWriting) writePage() error {
	if w.page == nil {
		return nil
	}
	var b bytes.Buffer
	if err := html.Write(&b, report.BuildRoofs(w.pageOf())); err != nil {
		return err
	}
	_, err := b.WriteTo(w.page)
	return err
}

// linkPages gives each roof the address of its own page, from where the page
// about all roofs lies. There is none between two volumes.
func (w *roofWriting) linkPages(names []string) {
	to, err := filepath.Rel(filepath.Dir(w.run.page.path), w.run.pages)
	if err != nil {
		return
	}
	var folder string
	for _, step := range strings.Split(filepath.ToSlash(to), "/") {
		folder += url.PathEscape(step) + "/"
	}
	for i, r := range w.roofs {
		r.Link = folder + names[i] + ".html"
	}
}

// pageOf is what the page is made from.
func (w *roofWriting) pageOf() report.RoofsPage {
	r := w.run
	in := report.RoofsPage{
		Roofs: r.result, Totals: w.totals, Plan: w.plan, Risk: w.risk, Table: r.page.table, Rejected: w.bad,
		Version: version(), Paper: r.page.paper, Far: w.farCells(),
	}
	for _, roof := range w.roofs {
		in.Rows = append(in.Rows, &roof.Roof)
	}
	for i := range r.columns.Lays {
		lay := &r.columns.Lays[i]
		in.Templates = append(in.Templates, filepath.Base(lay.File.Source.Name))
		for _, ref := range lay.Refs {
			in.Rates = in.Rates || ref == lay.File.Study.Rate
		}
	}
	for i, head := range r.columns.Inputs() {
		if n := w.empty[i]; n > 0 {
			in.Empty = append(in.Empty, report.EmptyCells{Head: head, Count: n})
		}
	}
	return in
}
