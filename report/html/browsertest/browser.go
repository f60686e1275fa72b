// Package browsertest opens pages of the report in Chromium, for tests: what a reader's browser
// draws, asks the network for, complains of and prints. Only tests import it.
//
// A test package that opens many pages shares one browser by running through [Main]:
//
//	func TestMain(m *testing.M) { os.Exit(browsertest.Main(m)) }
//
// Without it every Open starts and ends a browser of its own, which costs some seconds.
package browsertest

import (
	"context"
	"os/exec"
	"testing"

	"github.com/chromedp/chromedp"
)

// missing is what a test without a browser fails with: these tests are never skipped.
const missing = "no Chromium found on the PATH; these tests need it: " +
	"install the Debian package chromium (apt-get install chromium), or put chromium or google-chrome on the PATH"

// shared is the browser of a test binary that runs through Main, else nil.
var shared context.Context

// Main runs the tests of a package with one browser for all its pages, started by the first
// Open, and returns the exit code for os.Exit.
func Main(m *testing.M) int {
	path := chromium()
	if path == "" {
		return m.Run() // each Open tells its test what is missing
	}
	ctx, stop := newBrowser(path)
	defer stop()
	if err := chromedp.Do(ctx); err == nil {
		shared = ctx
	}
	// A browser that does not start is left to the tests: each then fails with the reason.
	return m.Run()
}

// chromium returns the browser's path, or "" when there is none.
func chromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// newBrowser describes a browser that is started by the first action and closed by stop. Besides
// the library's own switches it gets those that stop Chromium's own traffic, and no host name
// resolves, so that a page under test that wants the network cannot reach it.
func newBrowser(path string) (ctx context.Context, stop func()) {
	flags := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true),
		chromedp.Flag("no-pings", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND"),
		chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("lang", "en-US"),
	)
	alloc, cancel := chromedp.NewExecAllocator(context.Background(), flags...)
	ctx, _ = chromedp.NewContext(alloc)
	return ctx, func() {
		_ = chromedp.Cancel(ctx) // waits until the browser is gone
		cancel()
	}
}

// browserFor returns the shared browser, or one that ends with the test.
func browserFor(tb testing.TB) context.Context {
	tb.Helper()
	if shared != nil {
		return shared
	}
	path := chromium()
	if path == "" {
		tb.Fatal(missing)
	}
	ctx, stop := newBrowser(path)
	tb.Cleanup(stop)
	if err := chromedp.Do(ctx); err != nil {
		tb.Fatalf("starting %s: %v", path, err)
	}
	return ctx
}
