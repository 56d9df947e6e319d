"""Phrase lists and the term calendars they are read in."""
