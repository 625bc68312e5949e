"""Times of day as schedules write them: `4 PM`, `7:00 PM`, `noon`, `TBA`, `AM`."""

import re

from seasonboard.store.intake.folding import folded

HALF_TIMES = {"AM": "09:00", "PM": "16:00"}
"""What is put for a half day whose hour a file does not give; told whenever it is."""

NOON = "12:00"
"""What is put for a time of day that is not known; told whenever it is."""

UNKNOWN_TIMES = ("tba", "tbd", "tbc", "time tba", "time tbd", "to be announced", "?")

_CLOCK = re.compile(
    r"^(\d{1,2})(?:[:.h](\d{2})(?::(\d{2}))?)?\s*(?:([ap])(?:\.?\s*m)?\.?)?"
    r"(?:\s*(?:-|–|to)\s*\d{1,2}(?:[:.]\d{2})?\s*(?:[ap]\.?m\.?)?)?\s*(?:[ecmp][sd]?t)?$",
    re.IGNORECASE,
)
_WORDS = {"noon": "12:00", "12 noon": "12:00", "midday": "12:00", "midnight": "00:00"}


def time_of(text: str) -> str:
    """Return a time of day as `HH:MM`; nothing where the text is none.

    A bare hour counts only with am or pm; of a span, “4:00-5:30 PM”, the start counts.
    """
    bare = text.strip().casefold()
    if bare in _WORDS:
        return _WORDS[bare]
    parts = _CLOCK.match(bare)
    if not parts or (parts[2] is None and parts[4] is None and "m" not in bare):
        return ""
    hour, minute = int(parts[1]), int(parts[2] or 0)
    letter = parts[4] or (re.search(r"([ap])\.?m", bare) or [None, None])[1]
    if letter:
        if not 1 <= hour <= 12:
            return ""
        hour = hour % 12 + (12 if letter == "p" else 0)
    if hour > 23 or minute > 59 or (parts[2] is None and letter is None):
        return ""
    return f"{hour:02d}:{minute:02d}"


def half_of(text: str) -> str:
    """Return `AM` or `PM` of a cell that names only the half of the day; else nothing."""
    word = folded(text)
    if word in {"am", "a m", "morning"}:
        return "AM"
    return "PM" if word in {"pm", "p m", "afternoon", "evening"} else ""
