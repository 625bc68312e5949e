"""What the injuries to expect in a pitch tell of own injuries, declared."""

from seasonboard.answers.pitch.parts import Basis, PitchAnswer, TeamAhead
from seasonboard.disclosure.document_release import DocumentRelease
from seasonboard.disclosure.published_figures import ShownRate

GUARDED, BARE = "guarded injuries", "bare injuries"
EXPOSURES = {GUARDED: "guarded exposures", BARE: "bare exposures"}
RANGES = "ranges of the season ahead"
OWN = (Basis.OWN, Basis.OWN_BOTH)
_REACH = 3.92
"""Standard errors from one end of a 95 % range to the other."""


def expected(place: int, team: TeamAhead) -> list[str]:
    """Return the names of what a team's expected injuries tell; none where none are own."""
    return [
        f"injuries to expect, team {place + 1}, {team.name}, {each.setting}"
        for each in team.settings
        if each.baseline.basis in OWN
    ]


def declare(release: DocumentRelease, pitch: PitchAnswer) -> None:
    """Declare what expected injuries tell of own bare injuries, and what is left of all of those.

    The exposures behind a rate are not shown. What the width of the ranges tells is: how many
    injuries the rates rest on, as far as whole figures tell it.
    """
    cells: dict[tuple[str, str], dict[str, str]] = {}
    for place, team in enumerate(pitch.teams):
        own = [each for each in team.settings if each.baseline.basis in OWN]
        for each, name in zip(own, expected(place, team), strict=True):
            baseline, key = each.baseline, (team.team.sport.casefold(), team.team.sex)
            where = "both settings" if baseline.basis is Basis.OWN_BOTH else each.setting
            whose = f"{team.team.sex} {key[0]}, {where}"
            cell = release.unpublished(f"{BARE}, {whose}", baseline.injuries or 0)
            over = release.unpublished(f"{EXPOSURES[BARE]}, {whose}", baseline.exposures or 0)
            cells.setdefault(key, {})[where] = cell
            per = (each.injuries or 0.0) * (baseline.exposures or 0) / (baseline.injuries or 1)
            release.figure(ShownRate(name, cell, over, max(1, round(per))))
    parts: list[str] = []
    for by_setting in cells.values():
        both = by_setting.pop("both settings", None)
        if both is not None and by_setting:
            release.within(both, list(by_setting.values()))
        parts += [both] if both is not None else list(by_setting.values())
    if parts and pitch.ahead is not None:
        rest_on = "bare injuries that the plan rests on"
        value = sum(release.value(part) for part in parts)
        release.unpublished(rest_on, value)
        release.adds_up(rest_on, parts)
        release.within(BARE, [rest_on])
        release.within(EXPOSURES[BARE], [part.replace(BARE, EXPOSURES[BARE], 1) for part in parts])
        release.bounded(RANGES, rest_on, *_told_by_ranges(pitch, value, is_one=len(parts) == 1))


def _told_by_ranges(pitch: PitchAnswer, true: int, *, is_one: bool) -> tuple[int, int | None]:
    """Return how few and how many injuries the own rates can rest on, for who reads the ranges.

    The variance of the injuries is their mean and, of each source, mean² / injuries. Several
    sources rest on mean² / (the rest of the variance) at least (Cauchy-Schwarz).
    """
    assert pitch.ahead is not None  # noqa: S101 - asked by the one caller
    injuries = pitch.ahead.injuries
    wide = round(injuries.high_95) - round(injuries.low_95)
    settings = [each for team in pitch.teams for each in team.settings]
    mean = sum(each.injuries or 0.0 for each in settings)
    own = sum(each.injuries or 0.0 for each in settings if each.baseline.basis in OWN)
    more, less = (
        (max(wide + sign, 0) / _REACH * (1 + sign * 0.05)) ** 2 - mean for sign in (1, -1)
    )
    low = 0 if more <= 0 else min(true, int(own**2 / more))
    if not is_one or less <= 0 or own < mean:
        return low, None
    return low, max(true, int(own**2 / less) + 1)
