%% Where the ink lies: one line for each page, in points from its top left corner, y down:
%% systems left top right bottom, top line of the first staff, bottom line of the last one.
\version "2.24.3"
#(use-modules (lily paper-system))

#(define bbox-port #f)

#(define (system-box page system offset)
  (let* ((stencil (paper-system-stencil system))
         (x (+ (ly:prob-property page 'left-margin) (ly:prob-property system 'X-offset 0.0)))
         (y (+ (ly:prob-property page 'top-margin) offset))
         (xs (ly:stencil-extent stencil X))
         (ys (ly:stencil-extent stencil Y))
         (staves (paper-system-staff-extents system)))
   (list (+ x (car xs)) (- y (cdr ys)) (+ x (cdr xs)) (- y (car ys))
         (- y (cdr staves) 2) (+ (- y (car staves)) 2))))

#(define (dump-boxes layout pages)
  (if (not bbox-port)
      (set! bbox-port
            (open-output-file (string-append (ly:parser-output-name) ".bbox"))))
  (let ((points (* (ly:output-def-lookup layout 'output-scale) (/ 72 25.4))))
   (for-each
    (lambda (page)
     (let* ((systems (ly:prob-property page 'lines))
            (offsets (ly:prob-property page 'configuration))
            (boxes (map (lambda (system offset) (system-box page system offset))
                        systems offsets))
            (pick (lambda (choose index)
                   (* points (apply choose (map (lambda (box) (list-ref box index)) boxes))))))
      (format bbox-port "~a ~{~,4f~^ ~}\n" (length systems)
        (list (pick min 0) (pick min 1) (pick max 2) (pick max 3) (pick min 4) (pick max 5)))))
    pages)
   (force-output bbox-port)))

\paper { #(define (page-post-process layout pages) (dump-boxes layout pages)) }
