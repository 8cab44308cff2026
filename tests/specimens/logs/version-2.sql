-- A practice log as version 2 of the schema wrote it: a booklet, a day printed twice, corrections.
BEGIN TRANSACTION;
CREATE TABLE day (
        player TEXT NOT NULL CHECK (length(player) > 0),
        date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
        printed TEXT NOT NULL CHECK (length(printed) = 32),
        instrument TEXT NOT NULL CHECK (length(instrument) > 0),
        size TEXT NOT NULL CHECK (length(size) > 0),
        seed INTEGER NOT NULL,
        plan TEXT NOT NULL CHECK (length(plan) > 0),
        PRIMARY KEY (player, date, printed)
    ) STRICT
    ;
INSERT INTO "day" VALUES('Ines','2026-11-17','2026-11-27T01:13:37.422882+00:00','violin','4/4',0,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "violin",
  "size": "4/4",
  "player": "Ines",
  "seed": 0,
  "days": [
    {
      "date": "2026-11-17",
      "minutes": 4.0,
      "drills": [
        {
          "number": 1,
          "key": "violin-12-whole-place2-strings4321-stage1-low-mirror",
          "kind": "opening",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.5,
          "link": {
            "to": null,
            "changes": null,
            "text": "Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        },
        {
          "number": 2,
          "key": "violin-12-whole-place2-strings4321-stage2-low-mirror",
          "kind": "new",
          "stage": 2,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 1.5,
          "link": {
            "to": 1,
            "changes": "stage",
            "text": "As No. 1: same fingers, same place. New: cross on the second note. Hear major sixths up and back."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            }
          ],
          "only_if": 1
        }
      ]
    }
  ]
}
');
INSERT INTO "day" VALUES('Ines','2026-11-18','2026-11-27T01:13:37.422882+00:00','violin','4/4',0,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "violin",
  "size": "4/4",
  "player": "Ines",
  "seed": 0,
  "days": [
    {
      "date": "2026-11-18",
      "minutes": 4.0,
      "drills": [
        {
          "number": 3,
          "key": "violin-12-whole-place2-strings4321-stage2-low-mirror",
          "kind": "opening",
          "stage": 2,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": null,
            "changes": null,
            "text": "No. 2 of 17 Nov again. Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M6",
              "crosses": true,
              "within": null,
              "begins": null
            }
          ]
        },
        {
          "number": 4,
          "key": "violin-12-whole-place1-strings4321-stage1-low-mirror",
          "kind": "new",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 1,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": 1,
            "changes": "place",
            "text": "As No. 1 of 17 Nov: same fingers, same whole step. New: the hand goes a half step lower. The same perfect fourths up and back."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ],
          "only_if": 1
        }
      ]
    }
  ]
}
');
INSERT INTO "day" VALUES('Ines','2026-11-19','2026-11-27T01:13:37.422882+00:00','violin','4/4',0,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "violin",
  "size": "4/4",
  "player": "Ines",
  "seed": 0,
  "days": [
    {
      "date": "2026-11-19",
      "minutes": 2.0,
      "drills": [
        {
          "number": 5,
          "key": "violin-12-whole-place1-strings4321-stage1-low-mirror",
          "kind": "opening",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 1,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": null,
            "changes": null,
            "text": "No. 4 of 18 Nov again. Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        }
      ],
      "character": "light"
    }
  ]
}
');
INSERT INTO "day" VALUES('Ines','2026-11-20','2026-11-27T01:13:40.757394+00:00','violin','4/4',0,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "violin",
  "size": "4/4",
  "player": "Ines",
  "seed": 0,
  "days": [
    {
      "date": "2026-11-20",
      "minutes": 4.0,
      "drills": [
        {
          "number": 6,
          "key": "violin-12-whole-place2-strings4321-stage1-low-mirror",
          "kind": "opening",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": null,
            "changes": null,
            "text": "No. 1 of 17 Nov again. Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        },
        {
          "number": 7,
          "key": "violin-12-whole-place1-strings4321-stage1-low-mirror",
          "kind": "new",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 1,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": 6,
            "changes": "place",
            "text": "As No. 6: same fingers, same whole step. New: the hand goes a half step lower. The same perfect fourths up and back."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        }
      ]
    }
  ]
}
');
INSERT INTO "day" VALUES('Ines','2026-11-20','2026-11-27T01:13:42.239982+00:00','violin','4/4',3,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "violin",
  "size": "4/4",
  "player": "Ines",
  "seed": 3,
  "days": [
    {
      "date": "2026-11-20",
      "minutes": 4.0,
      "drills": [
        {
          "number": 8,
          "key": "violin-12-whole-place2-strings4321-stage1-low-mirror",
          "kind": "opening",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": null,
            "changes": null,
            "text": "No. 1 of 17 Nov again. Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "G#5",
                  "midi": 80,
                  "hz": 830.61
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "F#5",
                  "midi": 78,
                  "hz": 739.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        },
        {
          "number": 9,
          "key": "violin-12-whole-place1-strings4321-stage1-low-mirror",
          "kind": "new",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 1,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 2.0,
          "link": {
            "to": 8,
            "changes": "place",
            "text": "As No. 8: same fingers, same whole step. New: the hand goes a half step lower. The same perfect fourths up and back."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "G5",
                  "midi": 79,
                  "hz": 783.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "F5",
                  "midi": 77,
                  "hz": 698.46
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "C5",
                  "midi": 72,
                  "hz": 523.25
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Bb4",
                  "midi": 70,
                  "hz": 466.16
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "F4",
                  "midi": 65,
                  "hz": 349.23
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Eb4",
                  "midi": 63,
                  "hz": 311.13
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 3,
                  "pitch": "Bb3",
                  "midi": 58,
                  "hz": 233.08
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 1,
                  "pitch": "Ab3",
                  "midi": 56,
                  "hz": 207.65
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        }
      ]
    }
  ]
}
');
INSERT INTO "day" VALUES('Jo','2026-11-20','2026-11-27T01:13:43.563357+00:00','viola','4/4',0,'{
  "format": "bookgen-plan",
  "version": 1,
  "instrument": "viola",
  "size": "4/4",
  "player": "Jo",
  "seed": 0,
  "days": [
    {
      "date": "2026-11-20",
      "minutes": 3.0,
      "drills": [
        {
          "number": 1,
          "key": "viola-12-whole-place2-strings4321-stage1-low-mirror",
          "kind": "opening",
          "stage": 1,
          "fingers": [
            1,
            2
          ],
          "spacings": [
            "whole"
          ],
          "lead": "low",
          "return": "mirror",
          "place": 2,
          "position": "1st",
          "strings": [
            4,
            3,
            2,
            1
          ],
          "minutes": 3.0,
          "link": {
            "to": null,
            "changes": null,
            "text": "Start here: find the place, and hear each note before the next finger."
          },
          "events": [
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "D3",
                  "midi": 50,
                  "hz": 146.83
                }
              ],
              "duration": "1/4",
              "from_previous": null,
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "E3",
                  "midi": 52,
                  "hz": 164.81
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "C#5",
                  "midi": 73,
                  "hz": 554.37
                }
              ],
              "duration": "1/4",
              "from_previous": "P1",
              "crosses": false,
              "within": null,
              "begins": "turn"
            },
            {
              "stops": [
                {
                  "string": 1,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "B4",
                  "midi": 71,
                  "hz": 493.88
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "F#4",
                  "midi": 66,
                  "hz": 369.99
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 2,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "E4",
                  "midi": 64,
                  "hz": 329.63
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "B3",
                  "midi": 59,
                  "hz": 246.94
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 3,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "A3",
                  "midi": 57,
                  "hz": 220.0
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 2,
                  "semitones": 4,
                  "pitch": "E3",
                  "midi": 52,
                  "hz": 164.81
                }
              ],
              "duration": "1/4",
              "from_previous": "P4",
              "crosses": true,
              "within": null,
              "begins": "group"
            },
            {
              "stops": [
                {
                  "string": 4,
                  "finger": 1,
                  "semitones": 2,
                  "pitch": "D3",
                  "midi": 50,
                  "hz": 146.83
                }
              ],
              "duration": "1/4",
              "from_previous": "M2",
              "crosses": false,
              "within": null,
              "begins": null
            }
          ]
        }
      ]
    }
  ]
}
');
CREATE TABLE drill (
        player TEXT NOT NULL,
        number INTEGER NOT NULL CHECK (number >= 1),
        date TEXT NOT NULL,
        printed TEXT NOT NULL,
        key TEXT NOT NULL CHECK (length(key) > 0),
        kind TEXT NOT NULL CHECK (length(kind) > 0),
        PRIMARY KEY (player, number),
        FOREIGN KEY (player, date, printed) REFERENCES day (player, date, printed)
    ) STRICT
    ;
INSERT INTO "drill" VALUES('Ines',1,'2026-11-17','2026-11-27T01:13:37.422882+00:00','violin-12-whole-place2-strings4321-stage1-low-mirror','opening');
INSERT INTO "drill" VALUES('Ines',2,'2026-11-17','2026-11-27T01:13:37.422882+00:00','violin-12-whole-place2-strings4321-stage2-low-mirror','new');
INSERT INTO "drill" VALUES('Ines',3,'2026-11-18','2026-11-27T01:13:37.422882+00:00','violin-12-whole-place2-strings4321-stage2-low-mirror','opening');
INSERT INTO "drill" VALUES('Ines',4,'2026-11-18','2026-11-27T01:13:37.422882+00:00','violin-12-whole-place1-strings4321-stage1-low-mirror','new');
INSERT INTO "drill" VALUES('Ines',5,'2026-11-19','2026-11-27T01:13:37.422882+00:00','violin-12-whole-place1-strings4321-stage1-low-mirror','opening');
INSERT INTO "drill" VALUES('Ines',6,'2026-11-20','2026-11-27T01:13:40.757394+00:00','violin-12-whole-place2-strings4321-stage1-low-mirror','opening');
INSERT INTO "drill" VALUES('Ines',7,'2026-11-20','2026-11-27T01:13:40.757394+00:00','violin-12-whole-place1-strings4321-stage1-low-mirror','new');
INSERT INTO "drill" VALUES('Ines',8,'2026-11-20','2026-11-27T01:13:42.239982+00:00','violin-12-whole-place2-strings4321-stage1-low-mirror','opening');
INSERT INTO "drill" VALUES('Ines',9,'2026-11-20','2026-11-27T01:13:42.239982+00:00','violin-12-whole-place1-strings4321-stage1-low-mirror','new');
INSERT INTO "drill" VALUES('Jo',1,'2026-11-20','2026-11-27T01:13:43.563357+00:00','viola-12-whole-place2-strings4321-stage1-low-mirror','opening');
CREATE TABLE entry (
        player TEXT NOT NULL,
        number INTEGER NOT NULL,
        entered TEXT NOT NULL CHECK (length(entered) = 32),
        result TEXT CHECK (result IN ('secure', 'not yet')),
        date TEXT CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
        undoes TEXT,
        PRIMARY KEY (player, number, entered),
        FOREIGN KEY (player, number) REFERENCES drill (player, number),
        FOREIGN KEY (player, number, undoes) REFERENCES entry (player, number, entered),
        CHECK ((result IS NULL) = (date IS NULL)),
        CHECK ((result IS NULL) = (undoes IS NOT NULL)),
        CHECK (undoes IS NULL OR undoes < entered)
    ) STRICT
    ;
INSERT INTO "entry" VALUES('Ines',1,'2026-11-27T01:13:39.034598+00:00','secure','2026-11-17',NULL);
INSERT INTO "entry" VALUES('Ines',2,'2026-11-27T01:13:39.362012+00:00','secure','2026-11-17',NULL);
INSERT INTO "entry" VALUES('Ines',3,'2026-11-27T01:13:39.362012+00:00','not yet','2026-11-18',NULL);
INSERT INTO "entry" VALUES('Ines',3,'2026-11-27T01:13:39.716597+00:00','secure','2026-11-20',NULL);
INSERT INTO "entry" VALUES('Ines',3,'2026-11-27T01:13:39.938556+00:00',NULL,NULL,'2026-11-27T01:13:39.716597+00:00');
INSERT INTO "entry" VALUES('Ines',3,'2026-11-27T01:13:40.228081+00:00','secure','2026-11-21',NULL);
INSERT INTO "entry" VALUES('Ines',4,'2026-11-27T01:14:01.164479+00:00','secure','2026-11-18',NULL);
INSERT INTO "entry" VALUES('Ines',5,'2026-11-27T01:14:01.164479+00:00','secure','2026-11-19',NULL);
INSERT INTO "entry" VALUES('Ines',6,'2026-11-27T01:14:01.164479+00:00','secure','2026-11-20',NULL);
INSERT INTO "entry" VALUES('Ines',6,'2026-11-27T01:14:01.591099+00:00','secure','2026-11-22',NULL);
INSERT INTO "entry" VALUES('Ines',8,'2026-11-27T01:14:01.991142+00:00','not yet','2026-11-22',NULL);
INSERT INTO "entry" VALUES('Ines',4,'2026-11-27T01:14:02.485519+00:00','not yet','2026-11-18',NULL);
INSERT INTO "entry" VALUES('Ines',5,'2026-11-27T01:14:02.912359+00:00',NULL,NULL,'2026-11-27T01:14:01.164479+00:00');
INSERT INTO "entry" VALUES('Jo',1,'2026-11-27T01:14:03.389390+00:00','not yet','2026-11-20',NULL);
CREATE TRIGGER day_update_refused BEFORE update ON day
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no update of a day'); END;
CREATE TRIGGER day_delete_refused BEFORE delete ON day
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no delete of a day'); END;
CREATE TRIGGER drill_update_refused BEFORE update ON drill
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no update of a drill'); END;
CREATE TRIGGER drill_delete_refused BEFORE delete ON drill
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no delete of a drill'); END;
CREATE TRIGGER entry_update_refused BEFORE update ON entry
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no update of a entry'); END;
CREATE TRIGGER entry_delete_refused BEFORE delete ON entry
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no delete of a entry'); END;
CREATE TRIGGER entry_undoes_a_result BEFORE INSERT ON entry
    WHEN EXISTS (
        SELECT 1 FROM entry AS earlier
        WHERE earlier.player = NEW.player AND earlier.number = NEW.number
            AND earlier.entered = NEW.undoes AND earlier.result IS NULL
    )
    BEGIN SELECT RAISE(ABORT, 'only a result can be taken back'); END;
CREATE VIEW standing AS
    SELECT * FROM entry AS result
    WHERE result.result IS NOT NULL AND NOT EXISTS (
        SELECT 1 FROM entry AS undo
        WHERE undo.player = result.player AND undo.number = result.number
            AND undo.undoes = result.entered
    );
CREATE VIEW valid AS
    SELECT player, number, result, date, max(entered) AS entered FROM standing
    GROUP BY player, number;
CREATE INDEX entry_by_instant ON entry (entered);
COMMIT;
PRAGMA application_id = 1114599275;
PRAGMA user_version = 2;
