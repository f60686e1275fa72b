package scenarios

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"go.yaml.in/yaml/v4"

	"roofyears/lcc"
)

// Own writes the study file of one roof of many: this file with another title,
// with these numbers at inputs that are Settable and these texts at paths of
// findings. Comments are lost, and so is what the file says of tables.
// It fails when the YAML library does.
func (f *File) Own(title string, values map[lcc.Ref]decimal.Decimal, findings map[string]string) ([]byte, error) {
	root := *f.with(values, findings)
	keys, kept := root.keys, root.values
	root.keys, root.values = nil, nil
	for i, key := range keys {
		if key.text != "portfolio" {
			root.keys, root.values = append(root.keys, key), append(root.values, kept[i])
		}
	}
	titled := replaced(&root, []string{"study", "title"}, oneLine(title))
	text, err := yaml.Dump(unparsed(titled), yaml.WithV4Defaults())
	if err != nil {
		return nil, fmt.Errorf("the study of a roof cannot be written: %w", err)
	}
	return text, nil
}

// oneLine is a text of a table as a study file may have it.
func oneLine(text string) string {
	text = strings.Join(strings.FieldsFunc(text, func(c rune) bool { return hidden(c) || c == ' ' }), " ")
	if runes := []rune(text); len(runes) > maxText {
		text = string(runes[:maxText])
	}
	return text
}

// unparsed is the YAML of a node. A text stands in quotes unless it had none
// and needs none.
func unparsed(n *node) *yaml.Node {
	switch n.shape {
	case mapping:
		y := &yaml.Node{Kind: yaml.MappingNode}
		if n.braces {
			y.Style = yaml.FlowStyle
		}
		for i, key := range n.keys {
			y.Content = append(y.Content, unparsed(key), unparsed(n.values[i]))
		}
		return y
	case list:
		y := &yaml.Node{Kind: yaml.SequenceNode}
		for _, value := range n.values {
			y.Content = append(y.Content, unparsed(value))
		}
		return y
	}
	y := &yaml.Node{Kind: yaml.ScalarNode, Value: n.text}
	if !n.plain || n.joined > 0 {
		y.Style, y.Tag = yaml.DoubleQuotedStyle, "!!str"
	}
	return y
}
