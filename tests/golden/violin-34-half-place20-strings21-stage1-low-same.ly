\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        f'''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "II"
        gf'''4
        - \crossing "aug4"
        ^ \atFinger 0 4
        \bar ","
        \ottava 1
        c''''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "I"
        df''''4
        - \half "H"
        ^ \atFinger 0 4
        \bar "||"
        c''''4
        - \half "H"
        ^ \atFinger 0 3
        df''''4
        - \crossing "m6"
        ^ \atFinger 0 4
        \bar ","
        \ottava 0
        f'''4
        - \half "H"
        ^ \atFinger 0 3
        ^ \markup "II"
        gf'''4
        ^ \atFinger 0 4
        \bar "|."
    }
}
