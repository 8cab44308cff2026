%% Moves of the hand, drawn below the staff: from the head of one note to the head of the next.
%% Each command stands on the note from which the move leads away and ends by itself on the
%% next one. All marks of a line of music share one level; so do the string numerals above.

#(define (move-event shape text)
  (make-music 'NoteGroupingEvent 'span-direction START 'move-shape shape 'text text))

%% \crossing "P4": to another string, with the interval; a bracket.
crossing = #(define-event-function (text) (string?) (move-event 'crossing text))
%% \half "H": a half step on the string; a wedge.
half = #(define-event-function (text) (string?) (move-event 'half text))
%% \whole "W": a whole step on the string; a cup.
whole = #(define-event-function (text) (string?) (move-event 'whole text))
%% \wider "m3": more than a whole step on the string; a dash, so that none takes it for a step.
wider = #(define-event-function (text) (string?) (move-event 'wider text))
%% \rise "m3", \fall "m3": the hand shifts up or down; a line with a point at its end.
rise = #(define-event-function (text) (string?) (move-event 'rise text))
fall = #(define-event-function (text) (string?) (move-event 'fall text))
%% \ringing: an open string rings along with this note; a ring with a dot, in the row of the marks.
ringing = #(make-music 'NoteGroupingEvent 'span-direction START 'move-shape 'together 'text
  (markup #:translate (cons 0 (- 0.35 move-baseline))
    #:combine (#:draw-circle 0.5 0.14 #f) (#:draw-circle 0.18 0 #t)))
%% \together "M6": two notes that sound together; the word alone.
together = #(define-event-function (text) (string?) (move-event 'together text))
%% \atLineEnd \whole "W": the line of music ends after this note.
atLineEnd = #(define-event-function (move) (ly:music?)
  (ly:music-set-property! move 'at-line-end #t)
  move)
%% The thumb as high as a figure, where one would stand: \atFinger 0 \thumbSign.
thumbSign = \markup \general-align #Y #DOWN \fontsize #5 \musicglyph "scripts.thumb"
#(define (finger-text finger) (if (number? finger) (number->string finger) finger))
%% \atFinger 0 2: finger 2 in the lowest row above the note.
atFinger = #(define-event-function (row finger) (index? index-or-markup?)
  (let ((event #{ \tweak outside-staff-priority #(+ 200 row) \finger #finger #}))
   (ly:music-set-property! event 'row row)
   event))
%% \atSliding 0 2: the same with a dash before it, where finger 2 leads the hand as it shifts.
atSliding = #(define-event-function (row finger) (index? index-or-markup?)
  (let ((event #{ \tweak outside-staff-priority #(+ 200 row)
                  \tweak text #(finger-text finger)
                  \tweak stencil #sliding-finger \finger #finger #}))
   (ly:music-set-property! event 'row row)
   event))
#(define (sliding-finger grob)
  (let* ((figure (ly:text-interface::print grob))
         (x (car (ly:stencil-extent figure X)))
         (y (interval-center (ly:stencil-extent figure Y))))
   (ly:stencil-add figure
    (make-path-stencil (list 'moveto (- x 0.85) y 'lineto (- x 0.25) y) 0.16 1 1 #f))))

%% \onNewLine "II": the string's numeral once more, where a line of music begins with this note.
onNewLine = #(define-event-function (numeral) (markup?)
  #{ \tweak after-line-breaking #keep-on-new-line \tweak extra-spacing-width #'(+inf.0 . -inf.0)
     -\markup #numeral #})
#(define (keep-on-new-line grob)
  (let ((here (ly:item-get-column grob))
        (line (ly:spanner-bound (ly:grob-system grob) LEFT)))
   (if (not (equal? (ly:grob-property here 'when) (ly:grob-property line 'when)))
       (ly:grob-suicide! grob))))

%% A line of music may end here, if it must: without it the ink would run past the line.
breakIfNeeded = #(make-music 'LineBreakEvent 'break-permission 'allow 'break-penalty 10000)

#(define (head-center column refpoint)
  (let ((heads (ly:grob-object column 'note-heads #f)))
   (interval-center
    (if (ly:grob-array? heads)
        (ly:relative-group-extent heads refpoint X)
        (ly:grob-extent column refpoint X)))))

%% Where a mark begins or ends, from its own reference point: at the middle of a note's head, or at
%% the bar where the line of music ends.
#(define (move-edges grob)
  (let* ((left (ly:spanner-bound grob LEFT))
         (right (ly:spanner-bound grob RIGHT))
         (refpoint (ly:grob-common-refpoint (ly:grob-common-refpoint grob left X) right X))
         (own (ly:grob-relative-coordinate grob refpoint X))
         (from (head-center left refpoint))
         (to (if (grob::has-interface right 'note-column-interface)
                 (head-center right refpoint)
                 (line-end right refpoint))))
   (cons (- from own) (- to own))))

#(define (line-end bound refpoint)
  (let ((bars (ly:grob-extent bound refpoint X)))
   (if (interval-sane? bars) (car bars) (ly:grob-relative-coordinate bound refpoint X))))

%% A wedge, a cup, a dash are as wide as they may be, but no wider than their place.
#(define (mark-path shape x0 x1 thickness)
  (let* ((middle (/ (+ x0 x1) 2))
         (most (/ (- x1 x0) 2))
         (half (min 0.75 most))
         (wide (min 0.95 most))
         (line (lambda points (make-path-stencil points thickness 1 1 #f))))
   (case shape
    ((crossing) (line 'moveto x0 0.75 'lineto x0 0 'lineto x1 0 'lineto x1 0.75))
    ((half)
     (line 'moveto (- middle half) 0.75 'lineto middle -0.15 'lineto (+ middle half) 0.75))
    ((whole)
     (line 'moveto (- middle wide) 0.75
           'curveto (- middle wide) -0.25 (+ middle wide) -0.25 (+ middle wide) 0.75))
    ((rise fall)
     (let* ((long (min 1.5 most))
            (left (- middle long))
            (right (+ middle long))
            (from (if (eq? shape 'rise) -0.05 0.75))
            (to (- 0.7 from))
            (back (if (eq? shape 'rise) -1 1)))
      (ly:stencil-add
       (line 'moveto left from 'lineto right to)
       (line 'moveto (- right 0.62) (+ to (* back -0.08)) 'lineto right to
             'lineto (- right 0.32) (+ to (* back 0.55))))))
    ((wider) (line 'moveto (- middle wide) 0.5 'lineto (+ middle wide) 0.5))
    (else empty-stencil))))

#(define (move-text grob)
  (let* ((event (event-cause grob))
         (shape (ly:event-property event 'move-shape))
         (text (ly:event-property event 'text))
         (own (if (memq shape '(half whole wider)) '((font-shape . italic)) '())))
   (ly:stencil-aligned-to
    (interpret-markup (ly:grob-layout grob)
      (cons own (ly:grob-alist-chain grob
                 (ly:output-def-lookup (ly:grob-layout grob) 'text-font-defaults)))
      text)
    X CENTER)))

#(define (move::print grob)
  (let* ((shape (ly:event-property (event-cause grob) 'move-shape))
         (edges (move-edges grob))
         (x0 (+ (car edges) move-gap))
         (x1 (- (cdr edges) move-gap))
         (thickness (* (ly:staff-symbol-line-thickness grob)
                       (ly:grob-property grob 'thickness 1))))
   (ly:stencil-add
    (mark-path shape x0 x1 thickness)
    (ly:stencil-translate (move-text grob) (cons (/ (+ x0 x1) 2) move-baseline)))))

%% So far apart notes must stand that a mark and its word fit between them; at the end of a line
%% half a head and the double bar take their share of it.
#(define (move::minimum-length grob)
  (+ (max shortest-move
          (+ word-gap (interval-length (ly:stencil-extent (move-text grob) X))))
     (if (ly:event-property (event-cause grob) 'at-line-end #f) 1.3 0)))

%% Of a move across a line break only the first piece is drawn, after the note it leads away
%% from: there the player makes ready for it, and no clef is in its way.
#(define (move::keep-first grob)
  (let ((pieces (ly:spanner-broken-into (ly:grob-original grob))))
   (if (and (pair? pieces) (not (eq? grob (first pieces))))
       (ly:grob-suicide! grob))))

Moves_engraver =
#(lambda (context)
  (let ((events '()) (open #f) (column #f) (rows '()) (texts '()) (fingers '()))
   (define (row engraver direction priority padding)
    (or (assv-ref rows priority)
        (let ((line (ly:engraver-make-grob engraver 'DynamicLineSpanner '())))
         (ly:grob-set-property! line 'direction direction)
         (ly:grob-set-property! line 'outside-staff-priority priority)
         (if padding (ly:grob-set-property! line 'outside-staff-padding padding))
         (ly:spanner-set-bound! line LEFT (ly:context-property context 'currentCommandColumn))
         (set! rows (acons priority line rows))
         line)))
   (define (begin-move engraver event)
    (let ((move (ly:engraver-make-grob engraver 'HorizontalBracket event)))
     (ly:spanner-set-bound! move LEFT column)
     (ly:axis-group-interface::add-element (row engraver DOWN 300 #f) move)
     (set! open move)))
   (define (end-move engraver)
    (ly:spanner-set-bound! open RIGHT column)
    (ly:engraver-announce-end-grob engraver open column)
    (set! open #f))
   (define (name-together engraver event)
    (let ((text (ly:engraver-make-grob engraver 'CombineTextScript event)))
     (ly:grob-set-property! text 'text (ly:event-property event 'text))
     (ly:grob-set-parent! text X column)
     (ly:axis-group-interface::add-element (row engraver DOWN 300 #f) text)))
   (make-engraver
    (listeners
     ((note-grouping-event engraver event) (set! events (cons event events))))
    (acknowledgers
     ((note-column-interface engraver grob source)
      (if (not column) (set! column grob)))
     ((finger-interface engraver grob source) (set! fingers (cons grob fingers)))
     ((text-script-interface engraver grob source)
      (if (eq? 'TextScript (grob::name grob)) (set! texts (cons grob texts)))))
    ((process-acknowledged engraver)
     (for-each
      ; a numeral must not look like one more finger
      (lambda (text) (ly:axis-group-interface::add-element (row engraver UP 350 0.9) text))
      texts)
     (set! texts '())
     (for-each
      (lambda (finger)
       (let ((number (ly:event-property (event-cause finger) 'row 0)))
        (ly:grob-set-property! finger 'outside-staff-priority #f)
        (ly:grob-set-property! finger 'Y-offset 0)
        (ly:axis-group-interface::add-element
          (row engraver UP (+ 200 number) finger-padding) finger)))
      fingers)
     (set! fingers '())
     (if column
      (begin
       (if (and open (not (eq? column (ly:spanner-bound open LEFT)))) (end-move engraver))
       (for-each
        (lambda (event)
         (if (eq? 'together (ly:event-property event 'move-shape))
             (name-together engraver event)
             (begin-move engraver event)))
        events)
       (set! events '()))))
    ((stop-translation-timestep engraver) (set! column #f))
    ((finalize engraver)
     (for-each
      (lambda (pair)
       (ly:spanner-set-bound! (cdr pair) RIGHT
                              (ly:context-property context 'currentCommandColumn)))
      rows)
     (if open
      (begin (ly:warning "a move without a following note") (ly:grob-suicide! open)))))))
