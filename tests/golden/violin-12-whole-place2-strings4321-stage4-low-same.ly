\new Staff
<<
    \context Voice = "Upper"
    {
        \clef "treble"
        \oneVoice
        a4
        ^ \markup "IV"
        ^ (
        _ ~
        ^\atFinger 0 1
        \ringing
        \voiceOne
        fs'4
        ^ \markup "III"
        )
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        \oneVoice
        fs'4
        ^ (
        _ ~
        \voiceOne
        b'4
        ^ \markup "II"
        )
        ^\atFinger 0 2
        ^\atFinger 1 1
        \together "P4"
        \oneVoice
        b'4
        ^ (
        _ ~
        \voiceOne
        gs''4
        ^ \markup "I"
        )
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        \oneVoice
        gs''4
        \whole "W"
        s4
        \voiceOne
        fs''4
        ^ \markup "II"
        ^\atFinger 0 2
        ^\atFinger 1 1
        \together "P4"
        s4
        cs''4
        ^ \markup "III"
        ^\atFinger 0 1
        ^\atFinger 1 2
        \together "M6"
        s4
        e'4
        ^ \markup "IV"
        ^\atFinger 0 2
        ^\atFinger 1 1
        \together "P4"
        \oneVoice
        b4
        \bar "|."
    }
    \context Voice = "Lower"
    {
        s4
        \voiceTwo
        a4
        s4
        fs'4
        s4
        b'4
        s4
        \bar "||"
        \breakIfNeeded
        \oneVoice
        fs''4
        ^ ~
        _ (
        ^\atFinger 0 1
        ^\onNewLine "I"
        \voiceTwo
        cs''4
        )
        \oneVoice
        cs''4
        ^ ~
        _ (
        \voiceTwo
        e'4
        )
        \oneVoice
        e'4
        ^ ~
        _ (
        \voiceTwo
        b4
        )
        s4
    }
>>
