package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A browser that does not come to an end is told with the limit.
func TestPrintingTooLong(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, browsers[0]), []byte("#!/bin/sh\nexec /bin/sleep 60\n"), 0o700))
	t.Setenv("PATH", dir)
	usual := printing
	t.Cleanup(func() { printing = usual })
	assert.ErrorContains(t, tooLongToPrint("chromium"), "within 2 minutes, the longest that roofyears waits: write the page with -o")
	printing = 100 * time.Millisecond
	var out bytes.Buffer
	assert.ErrorContains(t, printPDF(&out, []byte("<p>")), "did not print the page within")
	assert.Zero(t, out.Len())
}
