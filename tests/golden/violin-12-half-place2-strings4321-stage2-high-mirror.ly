\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        bf4
        - \crossing "aug4"
        ^ \atFinger 0 2
        ^ \markup "IV"
        e'4
        - \half "H"
        ^ \atFinger 0 1
        ^ \markup "III"
        \bar ","
        f'4
        - \crossing "aug4"
        ^ \atFinger 0 2
        b'4
        - \half "H"
        ^ \atFinger 0 1
        ^ \markup "II"
        \bar ","
        c''4
        - \crossing "aug4"
        ^ \atFinger 0 2
        fs''4
        ^ \atFinger 0 1
        ^ \markup "I"
        \bar "||"
        fs''4
        - \crossing "aug4"
        ^ \atFinger 0 1
        c''4
        - \half "H"
        ^ \atFinger 0 2
        ^ \markup "II"
        \bar ","
        b'4
        - \crossing "aug4"
        ^ \atFinger 0 1
        f'4
        - \half "H"
        ^ \atFinger 0 2
        ^ \markup "III"
        \bar ","
        e'4
        - \crossing "aug4"
        ^ \atFinger 0 1
        bf4
        ^ \atFinger 0 2
        ^ \markup "IV"
        \bar "|."
    }
}
