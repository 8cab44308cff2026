\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        d'''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "II"
        ef'''4
        - \crossing "A4"
        ^ \atFinger 0 4
        \bar ","
        \ottava 1
        a'''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "I"
        bf'''4
        - \half "H"
        ^ \atFinger 0 4
        \bar "||"
        a'''4
        - \half "H"
        ^ \atFinger 0 3
        bf'''4
        - \crossing "m6"
        ^ \atFinger 0 4
        \bar ","
        \ottava 0
        d'''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "II"
        ef'''4
        ^ \atFinger 0 4
        \bar "|."
    }
}
