package browsertest

import (
	"slices"
	"strings"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// listen runs on the goroutine that reads the browser's messages: it must only note things down.
func (p *Page) listen(ev any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := ev.(type) {
	case *network.EventRequestWillBeSent:
		p.noteRequest(e.Request.URL)
	case *network.EventWebSocketCreated:
		p.noteRequest(e.URL)
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "assert" {
			p.errors = append(p.errors, argText(e.Args))
		}
	case *runtime.EventExceptionThrown:
		p.errors = append(p.errors, exceptionText(e.ExceptionDetails))
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" {
			p.errors = append(p.errors, e.Entry.Text)
		}
	}
}

// noteRequest leaves out the page itself and data: addresses, which carry their own content.
func (p *Page) noteRequest(address string) {
	if address != p.url && !strings.HasPrefix(address, "data:") {
		p.requests = append(p.requests, address)
	}
}

func argText(args []*runtime.RemoteObject) string {
	var words []string
	for _, a := range args {
		if a.Description != "" {
			words = append(words, a.Description)
		} else {
			words = append(words, strings.Trim(string(a.Value), `"`))
		}
	}
	return strings.Join(words, " ")
}

func exceptionText(d *runtime.ExceptionDetails) string {
	if d.Exception != nil && d.Exception.Description != "" {
		return d.Exception.Description
	}
	return d.Text
}

// Requests returns every address that the page has tried to load, reached or not, except itself.
func (p *Page) Requests() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.requests)
}

// ConsoleErrors returns the errors of the console: those the page wrote, exceptions that nothing
// caught, and the browser's own complaints, among them what the page's policy has blocked.
func (p *Page) ConsoleErrors() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.errors)
}

// Violations returns what the page's Content-Security-Policy has forbidden so far.
// With NoScript no listener runs in the page, and ConsoleErrors alone tells of them.
func (p *Page) Violations() []string {
	p.tb.Helper()
	return Eval[[]string](p, `window.__violations || []`)
}

// Eval runs the expression in the page, waits for it when it is a promise, and returns its value.
func Eval[T any](p *Page, js string) T {
	p.tb.Helper()
	v, err := run(p, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		p.tb.Fatalf("evaluating %s: %v", js, err)
	}
	return v
}
