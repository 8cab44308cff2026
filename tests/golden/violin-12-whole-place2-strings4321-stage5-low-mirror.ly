\new Staff
{
    \context Voice = "Upper"
    {
        \clef "treble"
        <a fs'>2
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "IV+III"
        <fs' b'>2
        - \together "P4"
        ^ \atFinger 0 2
        ^ \atFinger 1 1
        ^ \markup "III+II"
        <b' gs''>2
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "II+I"
        \bar "||"
        <b' gs''>2
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        <fs' b'>2
        - \together "P4"
        ^ \atFinger 0 2
        ^ \atFinger 1 1
        ^ \markup "III+II"
        <a fs'>2
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "IV+III"
        \bar "|."
    }
}
