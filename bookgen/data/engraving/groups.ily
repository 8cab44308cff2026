%% Groups of a passage: brackets with a letter over the staff, one for each placement of the hand.

%% \group "A": a bracket begins on this note; \endGroup: it ends on this note, or the same one.
group = #(define-event-function (letter) (string?)
  (make-music 'TextSpanEvent 'span-direction START 'text letter))
endGroup = #(make-music 'TextSpanEvent 'span-direction STOP)

%% \tieHeads #'(0 2) <c' e' g'>4: ties from some heads of the chord that follows, counted from the
%% lowest; \tieHeadsOver #'(0) <c' e'>4: ties to some heads from something that is not there.
#(define (with-event-on-heads heads name music)
  (for-each
   (lambda (head) (set! (ly:music-property head 'articulations)
                        (cons (make-music name) (ly:music-property head 'articulations))))
   (let ((notes (extract-typed-music music 'note-event)))
    (map (lambda (index) (list-ref notes index)) heads)))
  music)
tieHeads = #(define-music-function (heads music) (list? ly:music?)
  (with-event-on-heads heads 'TieEvent music))
tieHeadsOver = #(define-music-function (heads music) (list? ly:music?)
  (with-event-on-heads heads 'RepeatTieEvent music))

%% \barNames #'("33" "34"): the numbers of the bars as they are printed, in their order; in
%% brackets where a line of music begins within the bar.
barNames = #(define-music-function (names) (list?)
  (let ((names (list->vector names)))
   #{ \set Score.barNumberFormatter =
      #(lambda (number position alternative context)
        (let ((name (if (<= 1 number (vector-length names)) (vector-ref names (1- number)) "")))
         (if (and (ly:moment<? ZERO-MOMENT position) (not (string-null? name)))
             (string-append "(" name ")")
             name)))
   #}))

%% A line of music may end here, if it must.
mayBreak = #(make-music 'LineBreakEvent 'break-permission 'allow 'break-penalty 20)

%% White between a bracket's end and its outer notes' outer edges; between letter and hooks.
#(define group-overhang 0.15)
#(define letter-gap 0.35)
#(define bracket-gap 0.5)
#(define head-width 1.32)
#(define hook-length 0.9)

#(define (group-columns grob)
  (values (ly:spanner-bound grob LEFT) (ly:spanner-bound grob RIGHT)))

#(define (broken-left? grob)
  (not (grob::has-interface (ly:spanner-bound grob LEFT) 'note-column-interface)))
#(define (broken-right? grob)
  (not (grob::has-interface (ly:spanner-bound grob RIGHT) 'note-column-interface)))

#(define (heads-extent column refpoint)
  (let ((heads (ly:grob-object column 'note-heads #f)))
   (if (ly:grob-array? heads)
       (ly:relative-group-extent heads refpoint X)
       (ly:grob-extent column refpoint X))))

%% Where a bracket begins and ends, from its own reference point: around its notes' heads, or over
%% all of a line of music that it does not end in.
#(define (group-edges grob)
  (let* ((left (ly:spanner-bound grob LEFT))
         (right (ly:spanner-bound grob RIGHT))
         (refpoint (ly:grob-common-refpoint (ly:grob-common-refpoint grob left X) right X))
         (own (ly:grob-relative-coordinate grob refpoint X))
         (from (if (broken-left? grob)
                   (cdr (ly:paper-column::break-align-width left 'break-alignment))
                   (- (car (heads-extent left refpoint)) group-overhang)))
         (to (if (broken-right? grob)
                 (line-end right refpoint)
                 (+ (cdr (heads-extent right refpoint)) group-overhang))))
   (cons (- from own) (- to own))))

%% Where a bracket's line of music ends, from the bracket's own reference point.
#(define (group-limit grob)
  (let ((system (ly:grob-system grob)))
   (- (line-end (ly:spanner-bound system RIGHT) system)
      (ly:grob-relative-coordinate grob system X))))

%% The letter; on the lines after the first one in brackets.
#(define (group-letter grob)
  (let* ((letter (ly:event-property (event-cause grob) 'text))
         (text (if (broken-left? grob) (string-append "(" letter ")") letter)))
   (ly:stencil-aligned-to
    (interpret-markup (ly:grob-layout grob)
      (ly:grob-alist-chain grob (ly:output-def-lookup (ly:grob-layout grob) 'text-font-defaults))
      text)
    X LEFT)))

#(define (group::print grob)
  (let* ((edges (group-edges grob))
         (letter (group-letter grob))
         (width (interval-length (ly:stencil-extent letter X)))
         (before (if (broken-left? grob) 0 letter-gap))
         (limit (- (group-limit grob) width letter-gap before))
         (x0 (min (car edges) limit))
         (start (+ x0 before))
         (end (+ start width letter-gap))
         (x1 (max (cdr edges) end))
         (thickness (* (ly:staff-symbol-line-thickness grob)
                       (ly:grob-property grob 'thickness 1)))
         (line (lambda points (make-path-stencil points thickness 1 1 #f))))
   (ly:stencil-add
    (ly:stencil-translate letter (cons start -0.55))
    (if (broken-left? grob)
        empty-stencil
        (line 'moveto x0 (- hook-length) 'lineto x0 0 'lineto (+ x0 0.01) 0))
    (if (> (- x1 end) 0.3) (line 'moveto end 0 'lineto x1 0) empty-stencil)
    (if (broken-right? grob)
        empty-stencil
        (line 'moveto x1 0 'lineto x1 (- hook-length))))))

%% So far from a group of a single note the next note must stand that its bracket has room.
#(define (group::minimum-length grob)
  (+ group-overhang bracket-gap
     (max (+ head-width group-overhang)
          (+ (* 2 letter-gap) (interval-length (ly:stencil-extent (group-letter grob) X))))))

Groups_engraver =
#(lambda (context)
  (let ((starts '()) (stops '()) (open #f) (single #f) (column #f))
   (define (keep-room engraver)
    (let ((room (ly:engraver-make-grob engraver 'HorizontalBracket (event-cause open))))
     (for-each
      (lambda (pair) (ly:grob-set-property! room (car pair) (cdr pair)))
      `((stencil . #f)
        (outside-staff-priority . #f)
        (Y-offset . 0)
        (springs-and-rods . ,ly:spanner::set-spacing-rods)
        (minimum-length . ,group::minimum-length)
        (font-series . bold)
        (font-size . 0)))
     (ly:spanner-set-bound! room LEFT column)
     (set! single room)))
   (define (end-room engraver)
    (ly:spanner-set-bound! single RIGHT column)
    (ly:engraver-announce-end-grob engraver single column)
    (set! single #f))
   (make-engraver
    (listeners
     ((text-span-event engraver event)
      (if (eqv? START (ly:event-property event 'span-direction))
          (set! starts (cons event starts))
          (set! stops (cons event stops)))))
    (acknowledgers
     ((note-column-interface engraver grob source)
      (if (not column) (set! column grob))))
    ((process-acknowledged engraver)
     (if column
      (begin
       (if (and single (not (eq? column (ly:spanner-bound single LEFT)))) (end-room engraver))
       (for-each
        (lambda (event)
         (if open (ly:warning "a group begins before the one before it ends"))
         (set! open (ly:engraver-make-grob engraver 'TextSpanner event))
         (ly:spanner-set-bound! open LEFT column))
        starts)
       (for-each
        (lambda (event)
         (ly:spanner-set-bound! open RIGHT column)
         (ly:engraver-announce-end-grob engraver open column)
         (if (eq? column (ly:spanner-bound open LEFT)) (keep-room engraver))
         (set! open #f))
        stops)
       (set! starts '())
       (set! stops '()))))
    ((stop-translation-timestep engraver) (set! column #f))
    ((finalize engraver)
     (if single (ly:grob-suicide! single))
     (if open
      (begin (ly:warning "a group without an end") (ly:grob-suicide! open)))))))
