// Package portfolio reads a table of roofs: a row is a roof, a column an input
// of a template study by its path, or the id, the name or any other text of the
// roof. Rows stream: a table may be larger than memory.
//
// [Open] reads the head of a table, [Compile] finds what its columns stand for,
// [Table.Next] gives row by row, [Columns.Roof] reads the cells of one.
package portfolio
