\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        af4
        - \crossing "M6"
        ^ \atFinger 0 1
        ^ \markup "IV"
        f'4
        - \crossing "aug4"
        ^ \atFinger 0 3
        ^ \markup "III"
        b'4
        - \crossing "M6"
        ^ \atFinger 0 2
        ^ \markup "II"
        gs''4
        - \wider "aug2"
        ^ \atFinger 0 4
        ^ \markup "I"
        \bar "||"
        f''4
        - \crossing "P4"
        ^ \atFinger 0 1
        c''4
        - \crossing "m6"
        ^ \atFinger 0 3
        ^ \markup "II"
        e'4
        - \crossing "P4"
        ^ \atFinger 0 2
        ^ \markup "III"
        b4
        ^ \atFinger 0 4
        ^ \markup "IV"
        \bar "|."
    }
}
