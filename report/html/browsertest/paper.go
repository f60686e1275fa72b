package browsertest

import (
	"github.com/chromedp/chromedp"
)

// PDF prints the page as a reader would, on "A4" or "Letter" paper, with the margins that its
// style sheet asks for and without background graphics.
func (p *Page) PDF(paper string) []byte {
	p.tb.Helper()
	sizes := map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter}
	size, ok := sizes[paper]
	if !ok {
		p.tb.Fatalf("paper %q: want A4 or Letter", paper)
	}
	b, err := run(p, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
	if err != nil {
		p.tb.Fatalf("printing: %v", err)
	}
	return b
}

// Screenshot returns the whole page, beyond the window too, as a PNG picture.
func (p *Page) Screenshot() []byte {
	p.tb.Helper()
	b, err := run(p, chromedp.FullScreenshot(100))
	if err != nil {
		p.tb.Fatalf("taking a screenshot: %v", err)
	}
	return b
}
