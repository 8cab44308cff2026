"""A passage of a real piece, read from MusicXML, MIDI or typed text."""
