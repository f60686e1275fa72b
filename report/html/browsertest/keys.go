package browsertest

import (
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// keys are the keys that Press knows, by their names in the standard of UI events.
var keys = map[string]string{
	"ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown,
	"Home": kb.Home, "End": kb.End, "Tab": kb.Tab, "Enter": kb.Enter,
}

// Press presses keys, one after the other, on what has the focus.
func (p *Page) Press(names ...string) {
	p.tb.Helper()
	for _, name := range names {
		key, known := keys[name]
		if !known {
			p.tb.Fatalf("key %q is not among those that Press knows", name)
		}
		if _, err := run(p, chromedp.KeyEvent(key)); err != nil {
			p.tb.Fatalf("pressing %s: %v", name, err)
		}
	}
}
