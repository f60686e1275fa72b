package report

import (
	"fmt"
	"strings"

	"roofyears/lcc"
)

// answered is a section with a question and its answer, the first sentence.
func answered(question string, sentences []string) Section {
	s := Section{ID: "answer", Heading: question}
	for i, sentence := range sentences {
		role := Plain
		if i == 0 {
			role = Answer
		}
		s.Blocks = append(s.Blocks, Paragraph{Role: role, Text: sentence})
	}
	return s
}

// answerSection puts the question and the answer, with what qualifies it.
func (t *teller) answerSection() Section {
	s := answered(t.question(), t.answerSentences())
	if ruled := t.ruledOutList(); len(ruled) > 0 {
		s.Blocks = append(s.Blocks, List{Role: Remark, Items: ruled})
	}
	if n := len(t.Warnings); n > 0 {
		stand := "they stand"
		if n == 1 {
			stand = "it stands"
		}
		s.Blocks = append(s.Blocks, Paragraph{Role: Remark,
			Text: fmt.Sprintf("The study has %s to look at before relying on this; %s with the list of inputs.", Plural(n, "remark"), stand)})
	}
	return s
}

// question is the owner's question for this study, named by the kinds of work
// that its alternatives stand for.
func (t *teller) question() string {
	verbs := map[lcc.Work]string{
		lcc.WorkExisting: "keep %s as it is",
		lcc.WorkRestore:  "restore %s",
		lcc.WorkRecover:  "roof over %s",
		lcc.WorkTearOff:  "tear %s off",
	}
	var asked []string
	for _, work := range []lcc.Work{lcc.WorkExisting, lcc.WorkRestore, lcc.WorkRecover, lcc.WorkTearOff} {
		for i := range t.Alternatives {
			if t.startsWith(i) != work {
				continue
			}
			object := "it"
			if len(asked) == 0 {
				object = "the roof"
			}
			asked = append(asked, fmt.Sprintf(verbs[work], object))
			break
		}
	}
	if len(asked) < 2 {
		return "Which choice for this roof costs the owner least?"
	}
	last := len(asked) - 1
	return fmt.Sprintf("What costs the owner least: %s or %s?", strings.Join(asked[:last], ", "), asked[last])
}

// ruledOutList tells which alternatives may not be chosen, and why.
func (t *teller) ruledOutList() []string {
	var out []string
	for i := range t.Alternatives {
		if r := t.Alternatives[i].Alternative.RuledOut; r != nil {
			for _, ruling := range append([]lcc.Ruling{*r}, r.Further...) {
				out = append(out, t.rulingText(i, ruling))
			}
		}
	}
	return out
}

// rulingText tells one ruling. Where rules were put to the study, who decides
// is said beside them.
func (t *teller) rulingText(i int, r lcc.Ruling) string {
	text := fmt.Sprintf("“%s” is ruled out. Rule: %s. Finding: %s.", t.name(i), r.Rule, r.Finding)
	if r.Source != "" {
		text += fmt.Sprintf(" Source: %s.", r.Source)
	}
	if t.judged() {
		return text
	}
	return text + " Local codes and the licensed designer decide."
}
