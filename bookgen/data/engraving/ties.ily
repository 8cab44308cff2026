%% Ties of held notes. A tie that leads from one voice to the other knows nothing of the
%% accidental in front of the note that joins: here it ends before that accidental.

#(define tie-clearance 0.2)

#(define (column-accidentals column system)
  (filter
   (lambda (grob)
    (and (eq? 'Accidental (grob::name grob)) (eq? column (ly:item-get-column grob))))
   (ly:grob-array->list (ly:grob-object system 'all-elements))))

%% The stem of a flat ends where a tie still arches above it.
#(define (flat-slack accidental)
  (if (negative? (ly:grob-property accidental 'alteration 0)) 0.3 0))

%% How far right a tie may reach at its tip's height, from its own reference point.
#(define (free-reach tie tip)
  (let* ((system (ly:grob-system tie))
         (x (ly:grob-relative-coordinate tie system X))
         (y (+ (cdr tip) (ly:grob-relative-coordinate tie system Y)))
         (column (ly:item-get-column (ly:spanner-bound tie RIGHT)))
         (in-way (filter
                  (lambda (grob)
                   (let ((ys (ly:grob-extent grob system Y)))
                    (and (< (car ys) y) (< y (- (cdr ys) (flat-slack grob))))))
                  (column-accidentals column system))))
   (apply min (car tip)
          (map (lambda (grob) (- (car (ly:grob-extent grob system X)) x tie-clearance))
               in-way))))

%% The last points of the curve go back together; the arch stays as it is.
#(define end-before-accidentals
  (grob-transformer 'control-points
   (lambda (tie points)
    (let* ((tip (last points))
           (back (- (car tip) (free-reach tie tip))))
     (map (lambda (point part) (cons (- (car point) (* part back)) (cdr point)))
          points '(0 0.25 0.75 1))))))
