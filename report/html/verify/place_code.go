package verify

import (
	"fmt"
	"strings"

	"roofyears/report/html"
)

// headPlace names what a page has besides what it shows; "" for what it shows.
func headPlace(n *node) string {
	switch s := n.above(tagged("script", "style", "meta", "title")); {
	case s == nil:
		return ""
	case isData(s):
		return dataPlace(s)
	case s.tag == "script":
		return fmt.Sprintf("script %d", scriptPlace(s))
	case s.tag == "style":
		return "style sheet"
	case strings.EqualFold(s.attr("http-equiv"), "content-security-policy"):
		return "security policy"
	case s.tag == "title":
		return "title of the page"
	default:
		return "meta element " + quoted(s.attr("name")+s.attr("http-equiv"))
	}
}

// dataPlace names a block of data.
func dataPlace(s *node) string {
	switch chart := s.attr("data-options"); {
	case chart != "":
		return "data of chart " + quoted(chart)
	case s.attr("id") == html.CarriedID:
		return "carried study"
	case s.attr("id") == html.WhatIfID:
		return "data of the what-if"
	default:
		return "data " + quoted(s.attr("id"))
	}
}

// scriptPlace is where a script stands among those that are no data.
func scriptPlace(s *node) int {
	count := 0
	for _, k := range s.up.kids {
		if k.tag == "script" && !isData(k) {
			count++
		}
		if k == s {
			break
		}
	}
	return count
}
