package scenarios

// Limits on what a study takes of time and memory, whatever its lists are like.
const (
	maxInputs = 5_000  // numbers that may be estimated or moved
	maxLines  = 50_000 // of the ledgers of all alternatives, every input at its likely value
)

// weigh refuses a study that is sound and too large to be computed and shown.
// What cannot be derived has been refused before.
func (r *reader) weigh(at place) {
	if n := len(r.study.Inputs); n > maxInputs {
		r.fail(at, "alternatives", tooManyInputs(n, maxInputs))
		return
	}
	if n, err := r.study.Lines(r.study.Likely()); err == nil && n > maxLines {
		r.fail(at, "alternatives", tooManyLines(n, maxLines))
	}
}
