%% Ties of held notes. A tie that leads from one voice to the other knows nothing of the
%% accidental in front of the note that joins, which lies between the tie and its own note. Here
%% the tie passes that accidental, below it or above it, and ends at the head it is tied to.

%% The head of a held note needs no accidental, and no room for one either.
#(define (leave-tied-alone accidental)
  (if (ly:grob? (ly:grob-object accidental 'tie #f)) (ly:grob-suicide! accidental)))

#(define tie-clearance 0.15)

#(define (column-accidentals column system)
  (filter
   (lambda (grob)
    (and (eq? 'Accidental (grob::name grob)) (eq? column (ly:item-get-column grob))))
   (ly:grob-array->list (ly:grob-object system 'all-elements))))

%% The stem of a flat ends where a tie still arches above it.
#(define (flat-slack accidental)
  (if (negative? (ly:grob-property accidental 'alteration 0)) 0.3 0))

%% Accidentals where a tie would end, given its tip from its own reference point.
#(define (accidentals-in-way tie tip system)
  (let ((y (+ (cdr tip) (ly:grob-relative-coordinate tie system Y)))
        (column (ly:item-get-column (ly:spanner-bound tie RIGHT))))
   (filter
    (lambda (grob)
     (let ((ys (ly:grob-extent grob system Y)))
      (and (< (- (car ys) tie-clearance) y)
           (< y (+ tie-clearance (- (cdr ys) (flat-slack grob)))))))
    (column-accidentals column system))))

%% How far a tie has to go, in its own direction, to pass the accidentals.
#(define (way-past tie tip system in-way)
  (let ((up (positive? (ly:grob-property tie 'direction)))
        (y (+ (cdr tip) (ly:grob-relative-coordinate tie system Y))))
   (apply max 0
          (map (lambda (grob)
                (let ((ys (ly:grob-extent grob system Y)))
                 (+ tie-clearance
                    (if up (- (cdr ys) (flat-slack grob) y) (- y (car ys))))))
               in-way))))

%% Where the head that a tie leads to begins, from the tie's own reference point.
#(define (head-edge tie system)
  (- (car (ly:grob-extent (ly:spanner-bound tie RIGHT) system X))
     (ly:grob-relative-coordinate tie system X)))

#(define (moved points away right)
  (map (lambda (point part) (cons (+ (car point) (* part right)) (+ (cdr point) away)))
       points '(0 0.25 0.75 1)))

#(define reach-own-note
  (grob-transformer 'control-points
   (lambda (tie points)
    (let* ((system (ly:grob-system tie))
           (tip (last points))
           (in-way (accidentals-in-way tie tip system)))
     (if (null? in-way)
         points
         (moved points
                (* (sign (ly:grob-property tie 'direction)) (way-past tie tip system in-way))
                (max 0 (- (head-edge tie system) tie-clearance (car tip)))))))))
