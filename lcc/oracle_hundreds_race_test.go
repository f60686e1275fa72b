//go:build race

package lcc

const oracleHundreds = 4
