\new Staff
{
    \new Voice
    {
        \clef "treble"
        a4
        ^ \markup "IV"
        ^\atFinger 0 1
        \whole "W"
        \ringing
        b4
        ^\atFinger 0 2
        \crossing "P4"
        \bar ","
        \breakIfNeeded
        e'4
        ^ \markup "III"
        ^\atFinger 0 1
        \whole "W"
        \ringing
        fs'4
        ^\atFinger 0 2
        \crossing "P4"
        \bar ","
        \breakIfNeeded
        b'4
        ^ \markup "II"
        ^\atFinger 0 1
        \whole "W"
        cs''4
        ^\atFinger 0 2
        \crossing "P4"
        \bar ","
        \breakIfNeeded
        fs''4
        ^ \markup "I"
        ^\atFinger 0 1
        \whole "W"
        gs''4
        ^\atFinger 0 2
        \whole "W"
        \bar "||"
        \breakIfNeeded
        fs''4
        ^\atFinger 0 1
        ^\onNewLine "I"
        \whole "W"
        gs''4
        ^\atFinger 0 2
        \crossing "M6"
        \bar ","
        \breakIfNeeded
        b'4
        ^ \markup "II"
        ^\atFinger 0 1
        \whole "W"
        cs''4
        ^\atFinger 0 2
        \crossing "M6"
        \bar ","
        \breakIfNeeded
        e'4
        ^ \markup "III"
        ^\atFinger 0 1
        \whole "W"
        \ringing
        fs'4
        ^\atFinger 0 2
        \crossing "M6"
        \bar ","
        \breakIfNeeded
        a4
        ^ \markup "IV"
        ^\atFinger 0 1
        \whole "W"
        \ringing
        b4
        ^\atFinger 0 2
        \bar "|."
    }
}
