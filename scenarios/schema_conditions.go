package scenarios

// Conditions between the keys of a mapping, which all hold for what is none.

// has holds where all of some keys are there.
func has(keys ...string) *schema { return &schema{Required: keys} }

// lacks holds where none of some keys is there.
func lacks(keys ...string) *schema {
	s := &schema{}
	for _, key := range keys {
		s.Properties = append(s.Properties, member{key, &schema{Not: &schema{}}})
	}
	return s
}

// hasAny holds where at least one of some keys is there.
func hasAny(keys ...string) *schema {
	s := &schema{}
	for _, key := range keys {
		s.AnyOf = append(s.AnyOf, has(key))
	}
	return s
}

// at puts conditions at a key, where it is there.
func at(key string, is *schema) *schema { return &schema{Properties: members{{key, is}}} }

// both holds where all conditions do.
func both(conditions ...*schema) *schema { return &schema{AllOf: conditions} }

// when holds where the first condition does not, or the second does.
func when(condition, then *schema) *schema { return &schema{If: condition, Then: then} }

func not(s *schema) *schema { return &schema{Not: s} }
