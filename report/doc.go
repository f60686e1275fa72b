// Package report turns results into a neutral document (sections, tables of
// typed cells, figures, notes) that writers lay out: package text for the
// terminal, package html for the owner's page. The builders here choose words
// and figures; writers format and compute nothing, so a terminal table and a
// page cannot differ. Every figure is a ledger line, a sum of ledger lines or
// a stated function of them.
package report
