// Package roofbook writes the table of many roofs, [report.Roofs], as a workbook
// (ECMA-376): a sheet of the roofs with the columns and values of the CSV, and
// a sheet of the totals. The same rows give the same bytes.
package roofbook
