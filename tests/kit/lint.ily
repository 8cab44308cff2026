%% Boxes of all signs, for the collision check: page, system, name, left, bottom,
%% right, top, in staff spaces. The staff is one box, and so is each ledger line; of a tie there
%% is also the room from its tip to the head it leads to, as `TieEnd`.
\version "2.24.3"
#(use-modules (lily paper-system))

#(define lint-port #f)
#(define lint-page 0)
#(define lint-system 0)
#(define lint-names
  '(Accidental BarLine Beam Clef CombineTextScript Dots Fingering HorizontalBracket NoteHead
    OttavaBracket Rest Slur StaffSymbol Stem TextScript Tie
    ;; of passages only
    BarNumber KeySignature MultiMeasureRest RepeatTie Script TextSpanner TimeSignature
    TupletBracket TupletNumber))

#(define (lint-box name left bottom right top)
  (format lint-port "~a ~a ~a ~,3f ~,3f ~,3f ~,3f\n"
          lint-page lint-system name left bottom right top))

%% A curve fills little of its box: it is told as boxes of short stretches of it.
#(define (lint-curve name points x y)
  (let* ((at (lambda (axis t)
              (let ((s (- 1 t)) (p (map axis points)))
               (+ (* s s s (first p)) (* 3 s s t (second p)) (* 3 s t t (third p))
                  (* t t t (fourth p))))))
         (half 0.06))
   (for-each
    (lambda (step)
     (let ((x0 (at car (/ step 16))) (x1 (at car (/ (1+ step) 16)))
           (y0 (at cdr (/ step 16))) (y1 (at cdr (/ (1+ step) 16))))
      (lint-box name (+ x x0) (+ y (min y0 y1) (- half)) (+ x x1) (+ y (max y0 y1) half))))
    (iota 16))))

%% A flat has nothing at its upper right.
#(define (lint-flat left bottom right top)
  (lint-box 'Accidental left bottom (+ left 0.3) top)
  (lint-box 'Accidental left bottom right (+ bottom (* 0.6 (- top bottom)))))

%% A slanted beam fills little of its box: it is told as boxes of short stretches of it.
#(define (lint-beam beam left bottom right top)
  (let* ((ends (ly:grob-property beam 'positions))
         (rise (- (cdr ends) (car ends)))
         (high (- top bottom (abs rise)))
         (steps 16)
         (wide (/ (- right left) steps)))
   (for-each
    (lambda (step)
     (let ((foot (+ bottom (if (positive? rise) 0 (- rise)) (* rise (/ (+ step 1/2) steps)))))
      (lint-box 'Beam (+ left (* step wide)) foot (+ left (* (1+ step) wide)) (+ foot high))))
    (iota steps))))

%% A head beyond the staff stands on ledger lines: three spaces from the staff's middle and on.
#(define (lint-ledgers head x y xs)
  (let* ((position (ly:grob-staff-position head))
         (middle (- y (/ position 2)))
         (side (sign position)))
   (for-each
    (lambda (step)
     (let ((line (+ middle (* side (+ 3 step)))))
      (lint-box 'LedgerLine (+ x (car xs) -0.3) (- line 0.1) (+ x (cdr xs) 0.3) (+ line 0.1))))
    (iota (max 0 (- (quotient (abs (inexact->exact (round position))) 2) 2))))))

#(define (lint-tie-end system tie x y)
  (let* ((tip (last (ly:grob-property tie 'control-points)))
         (head (ly:spanner-bound tie RIGHT))
         (height (+ y (cdr tip)))
         (middle (interval-center (ly:grob-extent head system Y))))
   (if (grob::has-interface head 'note-head-interface) (lint-box 'TieEnd (+ x (car tip)) (min height middle)
                     (car (ly:grob-extent head system X)) (max height middle)))))

%% A mark below the staff and its word are two boxes; the word may be wider than the mark.
#(define (lint-move grob x y)
  (let* ((shape (ly:event-property (event-cause grob) 'move-shape))
         (edges (move-edges grob))
         (x0 (+ (car edges) move-gap))
         (x1 (- (cdr edges) move-gap))
         (middle (/ (+ x0 x1) 2))
         (boxes (list (cons 'Mark (mark-path shape x0 x1 0.1))
                      (cons 'Word (ly:stencil-translate (move-text grob)
                                                        (cons middle move-baseline))))))
   (for-each
    (lambda (box)
     (let ((xs (ly:stencil-extent (cdr box) X)) (ys (ly:stencil-extent (cdr box) Y)))
      (lint-box (car box) (+ x (car xs)) (+ y (car ys)) (+ x (cdr xs)) (+ y (cdr ys)))))
    boxes)))

#(define (lint-grob system grob)
  (let ((stencil (ly:grob-property grob 'stencil #f))
        (x (ly:grob-relative-coordinate grob system X))
        (y (ly:grob-relative-coordinate grob system Y)))
   (if (and (memq (grob::name grob) lint-names) (ly:stencil? stencil))
       (let ((xs (ly:stencil-extent stencil X)) (ys (ly:stencil-extent stencil Y)))
        (cond
         ((eq? 'Tie (grob::name grob))
          (lint-curve 'Tie (ly:grob-property grob 'control-points) x y)
          (lint-tie-end system grob x y))
         ((eq? 'HorizontalBracket (grob::name grob)) (lint-move grob x y))
         ((eq? 'Slur (grob::name grob))
          (lint-curve 'Slur (ly:grob-property grob 'control-points) x y))
         ((and (interval-sane? xs) (interval-sane? ys)
               (not (any inf? (list (car xs) (cdr xs) (car ys) (cdr ys)))))
          ((cond
            ((eqv? -1/2 (ly:grob-property grob 'alteration #f)) lint-flat)
            ((eq? 'Beam (grob::name grob)) (lambda box (apply lint-beam grob box)))
            (else (lambda box (apply lint-box (grob::name grob) box))))
           (+ x (car xs)) (+ y (car ys)) (+ x (cdr xs)) (+ y (cdr ys)))
          (if (eq? 'NoteHead (grob::name grob)) (lint-ledgers grob x y xs))))))))

#(define (lint-pages layout pages)
  (if (not lint-port)
      (set! lint-port (open-output-file (string-append (ly:parser-output-name) ".lint"))))
  (for-each
   (lambda (page)
    (for-each
     (lambda (line)
      (let ((system (paper-system-system-grob line)))
       (for-each (lambda (grob) (lint-grob system grob))
                 (ly:grob-array->list (ly:grob-object system 'all-elements)))
       (set! lint-system (1+ lint-system))))
     (ly:prob-property page 'lines))
    (set! lint-page (1+ lint-page)))
   pages)
  (force-output lint-port))

\paper { #(define (page-post-process layout pages) (lint-pages layout pages)) }
