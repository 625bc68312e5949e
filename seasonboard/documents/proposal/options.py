"""What an offer says beside released figures and a plan: typed, or written in one file.

It holds for the page that is made with it, and is kept in no store.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from pathlib import Path
from typing import Any, Optional

from seasonboard.answers.options import Option, option, options_of
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.errors import IntakeError, Problem
from seasonboard.regular_files import UnusableFileError, read_toml
from seasonboard.terms import nearest

LETTERS = 140
"""Most letters of a text of the offer: with more, its two pages would be three."""
_HIGHEST = {"scan_days": 60, "minutes_a_week": 2400}
_NOT_IN_FILES = {"prospect", "offer", "limits", "seed", "seasons"}
"""Options that a file of an offer does not hold: another file, and how the plan is simulated."""
_A_DAY = "is not a day; write it as 2027-03-31."


def read_day(text: str) -> date:
    """Return a day that was typed.

    Raises:
        IntakeError: It is none.
    """
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise _refused([Problem("--valid-until", None, None, text, _A_DAY)]) from error


def read_offer(text: str) -> "ProposalOptions":
    """Return what a file in TOML says of an offer; every key is an option, without its dashes.

    Raises:
        IntakeError: It cannot be read, or something in it is wrong; every reason is listed.
    """
    path = Path(text).expanduser()
    try:
        written = read_toml(path)
    except (OSError, UnusableFileError) as error:
        why = "is not there." if isinstance(error, FileNotFoundError) else str(error)
        raise _refused([Problem(str(path), None, None, None, why)]) from error
    known = {_key(one): one for one in _in_files()}
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    for key, value in written.items():
        one = known.get(key)
        if one is None:
            said, near = "is nothing that an offer says.", nearest(key, list(known))
            problems.append(Problem(path.name, None, None, key, said, near))
        elif why := _why_not(one, value):
            problems.append(Problem(path.name, None, key, str(value)[:LETTERS], why))
        else:
            values[one.name] = float(value) if one.kind is float else value
    if problems:
        raise _refused(problems)
    return ProposalOptions(**values)


@dataclass(frozen=True, slots=True)
class ProposalOptions(PitchOptions):
    """A plan for a prospect, and what its offer says in words; an empty text: to be agreed."""

    offer: Optional["ProposalOptions"] = option(
        None,
        "--offer",
        "All of this in one file (TOML); what is typed goes before it. --template shows one.",
        parse=read_offer,
        metavar="FILE",
    )
    by: str = option("", "--from", "Who offers, as it is to stand on the page.", metavar="TEXT")
    to: str = option("", "--for", "To whom: the department.", metavar="TEXT")
    contact: str = option("", "--contact", "How to reach who offers.", metavar="TEXT")
    valid_until: date | None = option(
        None, "--valid-until", "Last day of the offer.", parse=read_day, metavar="DAY"
    )
    fitted_by: str = option("", "--fitted-by", "Who fits a guard on an athlete.", metavar="TEXT")
    scan_days: int | None = option(
        None, "--scan-days", "Days on which the department's athletes come to be scanned."
    )
    minutes_a_week: int | None = option(
        None, "--minutes-a-week", "Minutes a week to record who took part and who wore a guard."
    )
    included: str = option("", "--included", "What the fees include.", metavar="TEXT")
    space_and_power: str = option(
        "", "--space-and-power", "What a printer in their building needs.", metavar="TEXT"
    )
    if_it_stops: str = option(
        "", "--if-it-stops", "What happens when a printer stops.", metavar="TEXT"
    )


def with_file(options: PitchOptions) -> ProposalOptions:
    """Return options with what their file says, where nothing else was typed.

    Raises:
        IntakeError: A text is too long, or a number lies outside its limits.
    """
    whole = ProposalOptions(**{one.name: getattr(options, one.name) for one in fields(options)})
    usual, offer = ProposalOptions(), whole.offer or ProposalOptions()
    for one in _in_files():
        value = getattr(whole, one.name)
        if value == getattr(usual, one.name):
            whole = replace(whole, **{one.name: getattr(offer, one.name)})
        elif why := _why_not(one, value):
            raise _refused([Problem(one.flag, None, None, str(value)[:LETTERS], why)])
    return whole


def offer_template() -> str:
    """Return a file of an offer to be filled in: every key with what it is; all are left out."""
    lines = [
        "# What an offer says beside released figures. It holds for the page made with it.",
        "# Take away the # before what is settled; the page says “to be agreed” of the rest.",
    ]
    for one in _in_files():
        example = '""' if one.kind is str else "0"
        example = "2027-03-31" if one.parse is read_day else example
        lines += ["", f"# {one.help}", f"# {_key(one)} = {example}"]
    return "\n".join(lines) + "\n"


def _in_files() -> list[Option]:
    """Return the options that a file may hold: the words of the page, then the plan."""
    of_plan = {one.name for one in fields(PitchOptions)}
    every = (one for one in options_of(ProposalOptions) if one.name not in _NOT_IN_FILES)
    return sorted(every, key=lambda one: one.name in of_plan)


def _key(one: Option) -> str:
    return one.flag.removeprefix("--").replace("-", "_")


def _why_not(one: Option, value: object) -> str:
    """Return why a value cannot be taken; empty where it can."""
    if one.parse is read_day:
        return "" if type(value) is date else _A_DAY
    if one.kind is str:
        if not isinstance(value, str):
            return "is not a text; write it in quotes."
        return "" if len(value) <= LETTERS else f"is longer than {LETTERS} letters; shorten it."
    kinds = int if one.kind is int else (int, float)
    if not isinstance(value, kinds) or isinstance(value, bool):
        return f"is not a {'whole ' if one.kind is int else ''}number."
    highest = _HIGHEST.get(one.name)
    is_inside = highest is None or 0 <= value <= highest
    return "" if is_inside else f"does not lie from 0 to {highest}."


def _refused(problems: Sequence[Problem]) -> IntakeError:
    several = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
    said = f"The offer cannot be used: {several}."
    return IntakeError(said, problems, "Correct it and ask again; nothing was written.")
