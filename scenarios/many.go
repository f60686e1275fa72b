package scenarios

// maxMapped is how many columns of a table a template may name.
const maxMapped = 1000

// Portfolio is what a study says for its use as the template of many roofs. No
// figure of the study itself depends on it.
type Portfolio struct {
	// Columns say what the heads of a table stand for, by head: the path of an
	// input or a finding, id, name or template. A head that a table lacks is no
	// error, so that one template serves several tables.
	Columns map[string]string
}

// portfolioOf reads what a template says of tables of roofs.
func (r *reader) portfolioOf(n *node) {
	s, ok := r.section(n, "portfolio", "under portfolio", manyKeys)
	if !ok {
		return
	}
	columns := s.need("columns")
	if columns == nil {
		return
	}
	if columns.shape != mapping {
		r.wrongShape(columns, s.sub("columns"), expectColumns)
		return
	}
	if len(columns.keys) > maxMapped {
		r.fail(columns.place, s.sub("columns"), tooMany(len(columns.keys), maxMapped))
		return
	}
	r.portfolio.Columns = map[string]string{}
	for i, head := range columns.keys {
		if path := r.line(columns.values[i], s.sub("columns")+"."+head.text); path != "" {
			r.portfolio.Columns[head.text] = path
		}
	}
}
