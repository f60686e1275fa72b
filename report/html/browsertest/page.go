package browsertest

import (
	"context"
	"net/url"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// patience is the longest that any one step may take.
const patience = 60 * time.Second

// Options say how a page is looked at. The zero value is a light screen of 1280 x 900 pixels.
type Options struct {
	Width, Height int  // of the window in CSS pixels; 0 means 1280 and 900
	Dark          bool // prefers-color-scheme: dark
	Print         bool // media type print from the start; PDF prints in either case
	NoScript      bool // JavaScript switched off; Eval still works, as the tester's own hand
}

// Page is an open page and what the browser has reported of it so far.
type Page struct {
	tb  testing.TB
	ctx context.Context
	url string

	mu       sync.Mutex
	requests []string
	errors   []string
}

// collect keeps every violation of the page's policy, from before its first byte is read, and has
// what would open a dialog, and wait for a hand, complain instead.
const collect = `(() => {
	for (const f of ['alert', 'confirm', 'prompt']) window[f] = (text) => console.error('dialog:', f, text);
	const seen = [];
	Object.defineProperty(window, '__violations', {value: seen});
	document.addEventListener('securitypolicyviolation', (e) => {
		seen.push(e.effectiveDirective + ': ' + (e.blockedURI || 'inline') + (e.sample ? ' ' + e.sample : '') +
			' (line ' + e.lineNumber + ')');
	});
})()`

// Open loads the file and returns when it has been drawn. The page is closed with the test.
// Whatever goes wrong fails the test, a missing browser included.
func Open(tb testing.TB, htmlPath string, opts Options) *Page {
	tb.Helper()
	abs, err := filepath.Abs(htmlPath)
	if err != nil {
		tb.Fatal(err)
	}
	p := &Page{tb: tb, url: (&url.URL{Scheme: "file", Path: filepath.ToSlash(abs)}).String()}
	ctx, cancel := chromedp.NewContext(browserFor(tb),
		chromedp.WithNewBrowserContext(), chromedp.WithListener(p.listen))
	tb.Cleanup(cancel)
	p.ctx = ctx
	if err := chromedp.Do(ctx); err != nil { // opens the tab; a time limit here would end it too early
		tb.Fatalf("opening a tab: %v", err)
	}
	prepare(p, opts)
	if _, err := run(p, chromedp.Navigate(p.url)); err != nil {
		tb.Fatalf("loading %s: %v", htmlPath, err)
	}
	settle(p)
	return p
}

// prepare sets what must hold before the page is read.
func prepare(p *Page, o Options) {
	p.tb.Helper()
	if o.Width == 0 {
		o.Width = 1280
	}
	if o.Height == 0 {
		o.Height = 900
	}
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
		{Name: "prefers-color-scheme", Value: "light"},
	}}
	if o.Dark {
		media.Features[0].Value = "dark"
	}
	if o.Print {
		media.Media = "print"
	}
	call(p, network.Enable, network.EnableParams{})
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: collect})
	call(p, emulation.SetEmulatedMedia, media)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: o.NoScript})
	resize(p, o.Width, o.Height)
}

func resize(p *Page, width, height int) {
	p.tb.Helper()
	if _, err := run(p, chromedp.EmulateViewport(int64(width), int64(height))); err != nil {
		p.tb.Fatalf("setting the window's size: %v", err)
	}
}

// settle waits for one screenshot's worth of drawing: what the page does on load has then been done.
func settle(p *Page) {
	p.tb.Helper()
	if _, err := run(p, chromedp.CaptureScreenshot()); err != nil {
		p.tb.Fatalf("waiting for the page to be drawn: %v", err)
	}
}

func call[P, R any](p *Page, c cdp.Command[P, R], params P) R {
	p.tb.Helper()
	res, err := run(p, func(ctx context.Context, t *chromedp.Target) (R, error) {
		return cdp.Call(ctx, t, c, params)
	})
	if err != nil {
		p.tb.Fatalf("%s: %v", c.Method, err)
	}
	return res
}

func run[T any](p *Page, a chromedp.Action[T]) (T, error) {
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, a)
}
