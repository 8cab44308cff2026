\new Staff
{
    \new Voice
    {
        \clef "treble"
        bf4
        ^ \markup "IV"
        ^\atFinger 0 2
        \crossing "aug4"
        e'4
        ^ \markup "III"
        ^\atFinger 0 1
        \half "H"
        \ringing
        \bar ","
        \breakIfNeeded
        f'4
        ^\atFinger 0 2
        ^\onNewLine "III"
        \crossing "aug4"
        b'4
        ^ \markup "II"
        ^\atFinger 0 1
        \half "H"
        \bar ","
        \breakIfNeeded
        c''4
        ^\atFinger 0 2
        ^\onNewLine "II"
        \crossing "aug4"
        fs''4
        ^ \markup "I"
        ^\atFinger 0 1
        \bar "||"
        \breakIfNeeded
        fs''4
        ^\atFinger 0 1
        ^\onNewLine "I"
        \crossing "aug4"
        c''4
        ^ \markup "II"
        ^\atFinger 0 2
        \half "H"
        \bar ","
        \breakIfNeeded
        b'4
        ^\atFinger 0 1
        ^\onNewLine "II"
        \crossing "aug4"
        f'4
        ^ \markup "III"
        ^\atFinger 0 2
        \half "H"
        \bar ","
        \breakIfNeeded
        e'4
        ^\atFinger 0 1
        ^\onNewLine "III"
        \crossing "aug4"
        \ringing
        bf4
        ^ \markup "IV"
        ^\atFinger 0 2
        \bar "|."
    }
}
