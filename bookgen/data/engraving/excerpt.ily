%% Excerpts of a passage: each on one page of its own, however many lines it has; no bar numbers.

\paper {
  systems-per-page = ##f
}

\layout {
  \context {
    \Score
    \omit BarNumber
    \override SpacingSpanner.spacing-increment = #1.0
  }
}
