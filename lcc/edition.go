package lcc

// Edition names the method: the year and month in which it last came to give
// another figure for some study. Raise it in the same change that makes any
// figure differ (a convention, a rounding, a measure's definition, a rule of
// the walk), never for wording, speed, a new measure or a new key that old
// files do not use.
const Edition = "2026-11"
