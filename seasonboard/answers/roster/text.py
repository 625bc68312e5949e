"""The Roster answer as text to read in a terminal, and as CSV for a spreadsheet."""

import unicodedata
from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose
from seasonboard.answers.roster.availability import Availability
from seasonboard.answers.roster.parts import (
    GuardState,
    LikeInjuries,
    NextGame,
    RosterAnswer,
    RosterAthlete,
    RosterGuard,
)
from seasonboard.answers.roster.words import (
    STRIP_KEY,
    days_word,
    guard_word,
    moment_word,
    state_word,
    strip_mark,
)
from seasonboard.answers.safe_text import one_line

WIDTH = 100

_COLUMNS = (("athlete", 20), ("team", 9), ("pos", 4), ("sessions", 12), ("state", 28))


def roster_text(answer: RosterAnswer) -> str:
    """Return the Roster answer as lines of text, at most 100 columns wide."""
    body = [*_table(answer), ""]
    if answer.athletes:
        body += [STRIP_KEY, ""]
    body += [*_needs(answer), *_like_lines(answer), *_games(answer)]
    body += _availability_lines(answer.availability)
    return page(answer.summary, body)


def guard_line(guard: RosterGuard) -> str:
    """Return a guard in a few words: `left shin guard, worn 3/9`; one being made by its stage."""
    name = guard_word(guard.kind, guard.side)
    if guard.state is GuardState.IN_HAND:
        told = "in hand" if guard.worn_share is None else f"worn {guard.worn}/{guard.taken_part}"
        return f"{name}, {told}"
    if guard.state is GuardState.MAKING:
        return f"{name}, {guard.stage}"
    return f"{name}, {guard.state}"


def roster_csv(answer: RosterAnswer) -> str:
    """Return one row per athlete as CSV, unrounded; empty where nothing is known."""
    heads = (
        "athlete",
        "name",
        "team",
        "season",
        "position",
        "status",
        "because",
        "injury_on",
        "days_lost",
        "guards",
        "worn_share",
        "needs",
        "attention",
        "next_game",
        "strip",
    )
    rows = [
        (
            a.athlete,
            a.name,
            a.team,
            a.season,
            a.position,
            a.status.value,
            a.because,
            a.injury.occurred_on.isoformat() if a.injury else None,
            a.days_lost,
            "; ".join(guard_line(guard) for guard in a.guards),
            a.worn_share,
            " ".join(a.needs),
            a.attention,
            answer.game_of(a).session,
            "".join(strip_mark(cell) for cell in a.strip),
        )
        for a in answer.athletes
    ]
    return as_csv(heads, rows)


def _table(answer: RosterAnswer) -> list[str]:
    if not answer.athletes:
        return []
    teams = {athlete.team for athlete in answer.athletes}
    columns = [c for c in _COLUMNS if c[0] != ("pos" if len(teams) > 1 else "team")]
    wide = [width for _, width in columns]
    wide.append(WIDTH - sum(wide) - 2 * len(wide))
    heads = [*(head for head, _ in columns), "guards"]
    rows = [_row(athlete, many=len(teams) > 1) for athlete in answer.athletes]
    return [_line(row, wide) for row in (heads, *rows)]


def _row(athlete: RosterAthlete, *, many: bool) -> list[str]:
    return [
        athlete.name,
        athlete.team if many else _initials(athlete.position),
        "".join(strip_mark(cell) for cell in athlete.strip),
        state_word(athlete),
        "; ".join(guard_line(guard) for guard in athlete.guards) or "none",
    ]


def _initials(position: str | None) -> str:
    """Return the first letters of a position's words; a dash where it is not recorded."""
    return "".join(word[0].upper() for word in (position or "").split()) or "–"


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    pairs = zip(cells, widths, strict=True)
    return "  ".join(_fitted(one_line(cell), width) for cell, width in pairs).rstrip()


def _fitted(text: str, width: int) -> str:
    """Return text in exactly so many terminal cells, cut with an ellipsis."""
    if _cells(text) > width:
        while _cells(text) > width - 1:
            text = text[:-1]
        text += "…"
    return text + " " * (width - _cells(text))


def _cells(text: str) -> int:
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )


def _needs(answer: RosterAnswer) -> list[str]:
    lines = [
        line
        for athlete in answer.athletes
        for need in athlete.needs
        for line in prose(f"  {one_line(athlete.name)}: {one_line(need)}", hang="    ")
    ]
    return ["Needed:", *lines, ""] if lines else []


def _like_lines(answer: RosterAnswer) -> list[str]:
    areas = {a.like.area: a.like for a in answer.athletes if a.like is not None}
    lines = [line for like in areas.values() for line in prose(f"  {like_word(like)}", hang="    ")]
    return (
        ["How long injuries of the same area took (a count, no forecast):", *lines, ""]
        if lines
        else []
    )


def like_word(like: LikeInjuries) -> str:
    """Return how long such injuries took, in one sentence."""
    counted = f"{words.plural(like.injuries, 'injury', 'injuries')}, {like.still_open} still open"
    if like.half_back is None:
        return f"{like.area}: not told, {like.why} ({counted})."
    return (
        f"{like.area}: half of such injuries were back within {days_word(like.half_back)} lost "
        f"({counted})."
    )


def _games(answer: RosterAnswer) -> list[str]:
    if len(answer.next_games) < 2:
        return []
    lines = [line for game in answer.next_games for line in _game(game)]
    return ["Next games:", *lines, ""]


def _game(game: NextGame) -> list[str]:
    when = game.why
    if game.starts_at is not None:
        label = f", {one_line(game.label)}" if game.label else ""
        when = f"{moment_word(game.starts_at)}{label}"
    text = f"  {one_line(game.team)} ({one_line(game.season)}), {game.rostered} rostered: {when}"
    return prose(text, hang="    ")


def _availability_lines(found: Availability) -> list[str]:
    lines = []
    for total in found.totals:
        if not total.sessions:
            continue
        name = {"all": "All sessions", "game": "Games", "practice": "Practices"}[total.setting]
        if total.share is None:
            lines += prose(f"{name}: {total.why}.")
            continue
        unknown = total.not_recorded + total.limited_unknown + total.out_unknown
        lines += prose(
            f"{name}: {words.percent(total.share)} available "
            f"({words.whole(total.available)} of {words.whole(total.recorded)} recorded, "
            f"{words.whole(unknown)} not known); {words.whole(total.out_injury)} out through "
            f"injury, {words.whole(total.out_illness)} through illness, "
            f"{words.whole(total.out_other)} for other reasons.",
            hang="  ",
        )
    return [*lines, *_severity_lines(found), ""]


def _severity_lines(found: Availability) -> list[str]:
    severity, burden = found.severity, found.burden
    if not severity.injuries:
        return prose("No injury of this roster is recorded in these seasons.")
    least = "at least " if severity.still_open else ""
    bins = ", ".join(
        f"{b.returned + b.still_open} of {b.name}"
        + (f" ({b.still_open} open)" if b.still_open else "")
        for b in severity.bins
    )
    median = severity.median
    half = "not reached" if median.value is None else f"{median.value} days"
    lines = prose(
        f"Days lost: {least}{words.whole(severity.days)} by "
        f"{words.plural(severity.injuries, 'injury', 'injuries')}, {severity.still_open} open; "
        f"median {half}; {bins}.",
        hang="  ",
    )
    if burden.per_1000 is not None:
        lines += prose(
            f"Burden: {'at least ' if burden.is_lower_bound else ''}"
            f"{words.number(burden.per_1000, digits=1)} days lost per 1000 athlete-exposures."
        )
    lines += prose(
        f"Roster days lost to injury: {words.whole(found.unavailable_days)} of "
        f"{words.whole(found.roster_days)}, a day of overlapping injuries counted once."
    )
    for part in found.by_part:
        rate = part.any_injury
        lines += prose(
            f"{part.season_part}: {words.plural(rate.injuries, 'injury', 'injuries')} in "
            f"{words.whole(rate.exposures)} athlete-exposures, {words.number(rate.value)} per 1000 "
            f"({words.number(rate.low)} to {words.number(rate.high)}).",
            hang="  ",
        )
    return lines
