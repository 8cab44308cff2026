%% How a drill's staff looks. Sizes are steps of a sixth of an octave of the text size;
%% distances are staff spaces.

\paper {
  top-margin = 10\mm % room around the music, so that no ink falls off the page
  bottom-margin = 20\mm
  left-margin = 10\mm
  right-margin = 10\mm
  indent = 0
  ragged-right = ##f
  ragged-last = ##f
  ragged-bottom = ##t
  print-page-number = ##f
  oddHeaderMarkup = ##f
  evenHeaderMarkup = ##f
  oddFooterMarkup = ##f
  evenFooterMarkup = ##f
  page-breaking = #ly:optimal-breaking % one-page-breaking gives all pages the first one's height
  system-system-spacing.padding = #1.5
}

\layout {
  \context {
    \Score
    \omit BarNumber
    \override SpacingSpanner.common-shortest-duration = #(ly:make-moment 1/4)
    \override SpacingSpanner.spacing-increment = #spacing
    \override NonMusicalPaperColumn.line-break-permission = ##f % only \break breaks
    \override PaperColumn.keep-inside-line = ##t
    timing = ##f
  }
  \context {
    \Staff
    \omit TimeSignature
    \consists Tie_engraver % a tie may lead from one voice to the other
    \consists #Moves_engraver
    \accidentalStyle forget % every altered note carries its accidental
    \override HorizontalBracket.stencil = #move::print
    \override HorizontalBracket.after-line-breaking = #move::keep-first
    \override HorizontalBracket.outside-staff-priority = ##f
    \override HorizontalBracket.Y-offset = #0
    \override HorizontalBracket.thickness = #1.1
    \override HorizontalBracket.font-size = #word-step
    \override HorizontalBracket.font-encoding = #'latin1
    \override HorizontalBracket.minimum-length = #move::minimum-length
    \override HorizontalBracket.springs-and-rods = #ly:spanner::set-spacing-rods
    \override CombineTextScript.outside-staff-priority = ##f
    \override CombineTextScript.avoid-slur = #'ignore
    \override CombineTextScript.Y-offset = #move-baseline
    \override CombineTextScript.font-size = #word-step
    \override CombineTextScript.font-series = #'medium
    \override CombineTextScript.self-alignment-X = #CENTER
    \override CombineTextScript.parent-alignment-X = #CENTER
    \override CombineTextScript.X-align-on-main-noteheads = ##t
    \override TextScript.outside-staff-priority = ##f
    \override TextScript.Y-offset = #0
    \override TextScript.avoid-slur = #'ignore % the row of numerals lies above all slurs
    \override TextScript.font-size = #numeral-step
    \override TextScript.self-alignment-X = #CENTER
    \override TextScript.parent-alignment-X = #CENTER
    \override DynamicLineSpanner.staff-padding = #0.4
    \override DynamicLineSpanner.outside-staff-padding = #0.4
    \override DynamicLineSpanner.outside-staff-horizontal-padding = #0.5
    \override Fingering.avoid-slur = #'ignore
    \override Fingering.font-size = #finger-step
    \override Fingering.staff-padding = #1.0
    \override Fingering.outside-staff-padding = #finger-padding
    \override Fingering.outside-staff-horizontal-padding = #0.15
    \override Fingering.add-stem-support = ##t
    \override Accidental.before-line-breaking = #leave-tied-alone
    \override Slur.details.accidental-collision = #40
    \override Slur.details.extra-encompass-free-distance = #0.6
    \override Slur.details.region-size = #6
    \override Slur.details.edge-attraction-factor = #1
    \override Tie.control-points = #reach-own-note
    \override Tie.minimum-length = #4
    \override BarLine.hair-thickness = #1.4
    \override BarLine.thick-thickness = #5
    ottavationMarkups = #ottavation-ordinals
    \override OttavaBracket.outside-staff-priority = #400
    \override OttavaBracket.vertical-skylines = #ly:grob::simple-vertical-skylines-from-extents
  }
  \context {
    \Voice
    \remove Tie_engraver
  }
}
