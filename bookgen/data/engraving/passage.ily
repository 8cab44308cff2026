%% How a passage's staff looks where it differs from a drill's: real meter, bars with numbers, groups.

\paper {
  systems-per-page = 1
}

%% A tuplet under a beam of its own needs no bracket; it keeps the bracket's room, so that the
%% number stands clear of the staff and of everything else.
#(define (tuplet-bracket::under-own-beam? grob)
  (let* ((columns (ly:grob-array->list (ly:grob-object grob 'note-columns)))
         (stems (map (lambda (column) (ly:grob-object column 'stem #f)) columns))
         (beams (map (lambda (stem) (and (ly:grob? stem) (ly:grob-object stem 'beam #f))) stems))
         (beam (and (pair? beams) (car beams))))
   (and (ly:grob? beam)
        (every (lambda (other) (eq? other beam)) beams)
        (= (length columns) (ly:grob-array-length (ly:grob-object beam 'stems))))))

%% Fingers of grace notes are small, but still to be read.
graceFingers = $(add-grace-property 'Voice 'Fingering 'font-size -5)

%% Dynamics that LilyPond has no command for.
xfz = #(make-dynamic-script "fz")
xrf = #(make-dynamic-script "rf")
xsfp = #(make-dynamic-script "sfp")

%% \outer: a sign that stands outside of fingers and slurs; those of touch stay at their heads.
outer = #(define-event-function (event) (ly:event?)
  (set! (ly:music-property event 'tweaks)
   (append '((outside-staff-priority . 300) (outside-staff-horizontal-padding . 0.4))
    (ly:music-property event 'tweaks)))
  event)

%% \bowWord "dolce": a word of the trade under the staff.
bowWord = #(define-event-function (text) (string?)
  #{ -\tweak self-alignment-X #LEFT -\tweak parent-alignment-X #LEFT -\tweak font-size #-0.5
     -\markup \italic #text #})

\layout {
  \context {
    \Score
    \override GraceSpacing.spacing-increment = #1.2
    \override GraceSpacing.shortest-duration-space = #2
    \undo \omit BarNumber
    timing = ##t
    barNumberVisibility = #all-bar-numbers-visible
    \override BarNumber.break-visibility = #begin-of-line-visible
    \override BarNumber.font-size = #-1
    \override BarNumber.self-alignment-X = #LEFT
    \revert NonMusicalPaperColumn.line-break-permission
    \revert SpacingSpanner.common-shortest-duration
    \override SpacingSpanner.spacing-increment = #1.6
  }
  \context {
    \Staff
    \undo \omit TimeSignature
    \numericTimeSignature
    \remove #Moves_engraver
    \consists #Groups_engraver
    \accidentalStyle modern
    \revert Accidental.before-line-breaking
    \revert Tie.control-points
    \revert Tie.minimum-length
    \override Fingering.font-size = #(- finger-step 1) % notes stand closer than in a drill
    \override Fingering.staff-padding = #1.7
    \override Fingering.outside-staff-padding = #(max finger-padding 0.7)
    \override TextSpanner.stencil = #group::print
    \override TextSpanner.outside-staff-priority = #500
    \override TextSpanner.outside-staff-padding = #0.7
    \override TextSpanner.outside-staff-horizontal-padding = #0.2
    \override TextSpanner.staff-padding = #7.1
    \override TextSpanner.vertical-skylines = #ly:grob::simple-vertical-skylines-from-extents
    \override TextSpanner.thickness = #1.2
    \override TextSpanner.font-size = #0
    \override TextSpanner.font-series = #'bold
    \override TextSpanner.font-shape = #'upright
    \override TextSpanner.font-encoding = #'latin1
    \revert TextScript.Y-offset
    \override TextScript.outside-staff-priority = #350
    \override TextScript.outside-staff-padding = #0.5
    \override TextScript.outside-staff-horizontal-padding = #0.3
    \override TupletBracket.direction = #DOWN
    \override TupletBracket.outside-staff-priority = #50
    \override TupletBracket.outside-staff-padding = #0.9
    \override TupletBracket.bracket-visibility = ##t
    \override TupletBracket.transparent = #tuplet-bracket::under-own-beam?
    \override Accidental.vertical-skylines = #ly:grob::simple-vertical-skylines-from-extents
    \override Clef.vertical-skylines = #ly:grob::simple-vertical-skylines-from-extents
    \override Beam.breakable = ##t
    \revert HorizontalBracket.stencil
    \revert HorizontalBracket.after-line-breaking
    \revert HorizontalBracket.outside-staff-priority
    \revert HorizontalBracket.Y-offset
    \revert HorizontalBracket.minimum-length
    \revert HorizontalBracket.springs-and-rods
  }
  \context {
    \Voice
    \remove Text_spanner_engraver
    \consists Horizontal_bracket_engraver
    \override HorizontalBracket.direction = #DOWN
    \override HorizontalBracket.bracket-flare = #'(0 . 0)
    \override HorizontalBracket.edge-height = #'(0.8 . 0.8)
    \override HorizontalBracket.shorten-pair = #'(-0.2 . -0.2)
    \override HorizontalBracket.thickness = #1.6
    \override HorizontalBracket.outside-staff-priority = #800
    \override HorizontalBracket.outside-staff-padding = #0.6
    \override HorizontalBracket.staff-padding = #2.6
    \override HorizontalBracketText.font-size = #1
    \override HorizontalBracketText.font-encoding = #'latin1
    \override HorizontalBracketText.padding = #0.4
    \override HorizontalBracketText.after-line-breaking = #within-line
  }
}
