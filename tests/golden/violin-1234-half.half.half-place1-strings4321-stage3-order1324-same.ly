\new Staff
{
    \new Voice
    {
        \clef "treble"
        af4
        ^ \markup "IV"
        ^\atFinger 0 1
        \crossing "M6"
        f'4
        ^ \markup "III"
        ^\atFinger 0 3
        \crossing "aug4"
        b'4
        ^ \markup "II"
        ^\atFinger 0 2
        \crossing "M6"
        gs''4
        ^ \markup "I"
        ^\atFinger 0 4
        \wider "aug2"
        \bar "||"
        \breakIfNeeded
        f''4
        ^\atFinger 0 1
        ^\onNewLine "I"
        \crossing "P4"
        c''4
        ^ \markup "II"
        ^\atFinger 0 3
        \crossing "m6"
        e'4
        ^ \markup "III"
        ^\atFinger 0 2
        \crossing "P4"
        \ringing
        b4
        ^ \markup "IV"
        ^\atFinger 0 4
        \bar "|."
    }
}
