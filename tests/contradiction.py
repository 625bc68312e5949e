"""What a sentence of Games says that Compare speaks against, read from the words alone."""

import re

from seasonboard.answers.compare.verdict import DISAGREE, LESS, MORE, NOTHING

CONTRAST = re.compile(r": ([0-9.]+) (more|fewer) \((.+?)\)\.")
"""The difference in a sentence of Games: how much, which way, its limits."""
EVEN = ": as many ("
_ALONE = ("Nothing to follow", "No guard counted here was worn", "Every exposure in")


def opposed(sentence: str, verdict: str, ratio: float | None) -> str:
    """Return what of a sentence the verdict and ratio of Compare contradict; empty: nothing."""
    if sentence.startswith(_ALONE):
        return ""
    if not sentence.lower().startswith(verdict):
        return "another verdict"
    found = CONTRAST.search(sentence)
    if found is None:
        return "" if "see Compare" in sentence or EVEN in sentence else "no way to Compare"
    _, side, limits = found.groups()
    if verdict in {DISAGREE, NOTHING} or ratio is None:
        return "a difference where Compare has none"
    if ratio != 1 and (side == "more") != (ratio < 1):
        return "the other side"
    is_beyond = re.fullmatch(r"[0-9.]+ to [0-9.]+ (more|fewer)", limits)
    is_alone = is_beyond and verdict != {"more": LESS, "fewer": MORE}[side]
    return "beyond chance alone" if is_alone else ""
