//go:build !race

package lcc

// oracleHundreds times a hundred random studies are compared with the oracle;
// fewer with the race detector, which makes it slow and finds nothing in it.
const oracleHundreds = 100
