\new Staff
{
    \new Voice
    {
        \clef "treble"
        f'''4
        ^ \markup "II"
        ^\atFinger 0 3
        \half "H"
        gf'''4
        ^\atFinger 0 4
        \crossing "aug4"
        \bar ","
        \breakIfNeeded
        \ottava 1
        c''''4
        ^ \markup "I"
        ^\atFinger 0 3
        \half "H"
        df''''4
        ^\atFinger 0 4
        \half "H"
        \bar "||"
        \breakIfNeeded
        c''''4
        ^\atFinger 0 3
        ^\onNewLine "I"
        \half "H"
        df''''4
        ^\atFinger 0 4
        \crossing "m6"
        \bar ","
        \breakIfNeeded
        \ottava 0
        f'''4
        ^ \markup "II"
        ^\atFinger 0 3
        \half "H"
        gf'''4
        ^\atFinger 0 4
        \bar "|."
    }
}
