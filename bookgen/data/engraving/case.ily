%% The type case: a page with every sign in which drills are set, before all others. A PDF numbers
%% signs as it meets them; so every PDF numbers them alike, and a page from one is drawn with the
%% type of any other. They lie upon each other, because a sign off the page is none.
%% The page has no ink box.
\bookpart {
  \paper { #(define (page-post-process layout pages) #f) }
  \markup \overlay {
    \path #0.1 #'((moveto 0 0) (lineto 1 0) (lineto 1 1)) % round corners from here on
    \override #'(font-encoding . latin1) \fontsize #word-step \overlay {
      \letters #case-letters \italic \letters #case-letters \bold \italic \letters "8va"
    }
    \override #'((font-encoding . fetaText) (font-features . ("cv47" "ss01")))
    \fontsize #finger-step \letters "01234" \fontsize #finger-step \thumbSign
    \musicglyph "noteheads.s0" \musicglyph "noteheads.s1" \musicglyph "noteheads.s2"
    \musicglyph "accidentals.natural" \musicglyph "accidentals.sharp" \musicglyph "accidentals.flat"
    \musicglyph "accidentals.doublesharp" \musicglyph "accidentals.flatflat"
    \musicglyph "clefs.G" \musicglyph "clefs.C" \musicglyph "clefs.F"
    \musicglyph "flags.u3" \musicglyph "flags.d3" \musicglyph "dots.dot"
  }
}
