\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        a4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "IV"
        b4
        - \crossing "P4"
        ^ \atFinger 0 2
        \bar ","
        e'4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "III"
        fs'4
        - \crossing "P4"
        ^ \atFinger 0 2
        \bar ","
        b'4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "II"
        cs''4
        - \crossing "P4"
        ^ \atFinger 0 2
        \bar ","
        fs''4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "I"
        gs''4
        - \whole "W"
        ^ \atFinger 0 2
        \bar "||"
        fs''4
        - \whole "W"
        ^ \atFinger 0 1
        gs''4
        - \crossing "M6"
        ^ \atFinger 0 2
        \bar ","
        b'4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "II"
        cs''4
        - \crossing "M6"
        ^ \atFinger 0 2
        \bar ","
        e'4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "III"
        fs'4
        - \crossing "M6"
        ^ \atFinger 0 2
        \bar ","
        a4
        - \whole "W"
        ^ \atFinger 0 1
        ^ \markup "IV"
        b4
        ^ \atFinger 0 2
        \bar "|."
    }
}
