\new Staff
{
    \new Voice
    {
        \clef "treble"
        <a fs'>2
        ^ \markup "IV+III"
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        <fs' b'>2
        ^ \markup "III+II"
        ^\atFinger 0 2
        ^\atFinger 1 1
        \together "P4"
        <b' gs''>2
        ^ \markup "II+I"
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        \bar "||"
        \breakIfNeeded
        <b' gs''>2
        ^\atFinger 0 1
        ^\atFinger 1 2
        ^\onNewLine "II+I"
        \together "M6"
        <fs' b'>2
        ^ \markup "III+II"
        ^\atFinger 0 2
        ^\atFinger 1 1
        \together "P4"
        <a fs'>2
        ^ \markup "IV+III"
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        \bar "|."
    }
}
