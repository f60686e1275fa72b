package vary

import (
	"fmt"
	"os"
	"testing"

	"roofyears/scenarios"
)

func TestQuick(t *testing.T) {
	for _, name := range []string{"cold-store", "school"} {
		src, _ := scenarios.Example(name)
		f, _ := scenarios.Read(src)
		r, err := f.Study.Evaluate()
		if err != nil {
			t.Fatal(err)
		}
		sw, err := Swings(r)
		fmt.Println(name, err)
		for _, s := range sw {
			in := r.Study.Inputs[s.In]
			fmt.Println(in.Path, s.Low.Value, s.Low.Margin, s.High.Value, s.High.Margin, s.Width, s.Flips, s.Low.Problem, s.High.Problem)
		}
		var rivals []int
		for _, a := range eligible(r.Study) {
			if a != r.Answer.Lowest {
				rivals = append(rivals, a)
			}
		}
		hs, err := Holds(r, r.Answer.Lowest, rivals)
		fmt.Println(err)
		for _, h := range hs {
			fmt.Print(r.Study.Inputs[h.In].Path, " ", r.Inputs[h.In], " ", h.Low, h.High, ": ")
			for _, w := range h.Within {
				fmt.Print(" [", w.From, ",", w.To, "]")
				if w.FromTie != nil && w.FromTie.Step || w.ToTie != nil && w.ToTie.Step {
					fmt.Print("step")
				}
			}
			fmt.Println()
		}
	}
	fmt.Fprintln(os.Stderr)
}
