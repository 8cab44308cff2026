%% What the player reads besides: fingers that go low or high, and numbers of hard spots.

%% An arrow beside a finger: higher or lower than it last stood in this place of the hand.
#(define (arrow-path up?)
  (let ((flip (lambda (y) (if up? y (- 1.7 y)))))
   #{ \markup \path #0.17 #`((moveto 0 ,(flip 0)) (lineto 0 ,(flip 1.7))
        (moveto -0.45 ,(flip 1.05)) (lineto 0 ,(flip 1.7)) (lineto 0.45 ,(flip 1.05))) #}))
#(define (with-arrow row finger up?)
  (let ((text (finger-text finger)))
   #{ \tweak outside-staff-priority #(+ 200 row)
      \finger \markup \concat { #text \hspace #0.35 #(arrow-path up?) } #}))

%% \atHigh 0 2, \atLow 0 2: as \atFinger, with an arrow up or down.
atHigh = #(define-event-function (row finger) (index? index-or-markup?) (with-arrow row finger #t))
atLow = #(define-event-function (row finger) (index? index-or-markup?) (with-arrow row finger #f))

%% The number of a bracket that is cut at the end of a line goes no farther than the line.
#(define (within-line number)
  (let* ((right (cdr (ly:grob-extent number (ly:grob-system number) X)))
         (over (- right (ly:output-def-lookup (ly:grob-layout number) 'line-width))))
   (if (> over 0) (ly:grob-translate-axis! number (- over) X))))

%% \spot "3" … \endSpot: a bracket under a hard spot with its number; \loneSpot "3": for one sound.
spot = #(define-event-function (number) (string?)
  #{ \tweak HorizontalBracketText.text \markup \bold #number \startGroup #})
endSpot = \stopGroup
loneSpot = #(define-event-function (number) (string?)
  #{ \tweak outside-staff-priority #800 \tweak staff-padding #3.0 \tweak font-size #1
     _\markup \bold #number #})
