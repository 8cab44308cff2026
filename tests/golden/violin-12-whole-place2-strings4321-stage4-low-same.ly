\new Staff
<<
    \context Voice = "Upper"
    {
        \clef "treble"
        \oneVoice
        a4
        ^ \atFinger 0 1
        ^ \markup "IV"
        _ ~
        \voiceOne
        fs'4
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "III"
        ^ ~
        \oneVoice
        fs'4
        _ ~
        \voiceOne
        b'4
        - \together "P4"
        ^ \atFinger 0 2
        ^ \atFinger 1 1
        ^ \markup "II"
        ^ ~
        \oneVoice
        b'4
        _ ~
        \voiceOne
        gs''4
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "I"
        ^ ~
        \oneVoice
        gs''4
        - \whole "W"
        \bar "||"
        fs''4
        ^ \atFinger 0 1
        ^ ~
        \voiceOne
        fs''4
        - \together "P4"
        ^ \atFinger 0 2
        ^ \atFinger 1 1
        ^ \markup "II"
        \oneVoice
        cs''4
        ^ ~
        \voiceOne
        cs''4
        - \together "M6"
        ^ \atFinger 0 1
        ^ \atFinger 1 2
        ^ \markup "III"
        \oneVoice
        e'4
        ^ ~
        \voiceOne
        e'4
        - \together "P4"
        ^ \atFinger 0 2
        ^ \atFinger 1 1
        ^ \markup "IV"
        \oneVoice
        b4
        \bar "|."
    }
    \context Voice = "Lower"
    {
        \voiceTwo
        s4
        a4
        s4
        fs'4
        s4
        b'4
        s4
        s4
        cs''4
        _ ~
        s4
        e'4
        _ ~
        s4
        b4
        _ ~
        s4
    }
>>
