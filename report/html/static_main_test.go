package html

import (
	"os"
	"testing"

	"roofyears/report/html/browsertest"
)

func TestMain(m *testing.M) { os.Exit(browsertest.Main(m)) }
