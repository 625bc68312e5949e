"""A prospect: the teams of a department that is no client yet, read from a small table."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from seasonboard.errors import IntakeError, Problem
from seasonboard.terms import Sex, nearest

INJURIES, MISSED = "injuries_last_season", "games_missed_last_season"
COLUMNS = ("sport", "sex", "position_group", "athletes", "games", "practices", INJURIES, MISSED)
"""The columns of the table. `position_group` and last season may be left out, and `sex` where the
sport says it. Last season's injuries are those to the sites that are planned for, with time lost.
"""

LIMITS: Mapping[str, tuple[int, int]] = {
    "athletes": (1, 250),
    "games": (1, 100),
    "practices": (0, 350),
    INJURIES: (0, 250),
    MISSED: (0, 2500),
}
"""Least and most that one team can have in one season; what lies outside is a slip of the pen."""

SPORTS = (
    *("baseball", "basketball", "beach volleyball", "bowling", "cross country", "diving"),
    *("fencing", "field hockey", "football", "golf", "gymnastics", "ice hockey", "lacrosse"),
    *("rowing", "rugby", "skiing", "soccer", "softball", "swimming", "tennis"),
    *("track and field", "triathlon", "volleyball", "water polo", "wrestling"),
)
"""Sports that colleges play, in the words of the sample season. Others are taken as written."""

EXAMPLE = ",".join(COLUMNS)
_MISSPELLED = 0.75
_LETTERS = 80
_WHOLE = re.compile(r"\+?([0-9]{1,9})(?:[.,]0+)?")
_OF_SEX = re.compile(r"(wom[ae]n|men|mixed)(?:['’`]?s)?\s+(.+)")


@dataclass(frozen=True, slots=True)
class ProspectTeam:
    """One team: `athletes` in all, of whom `groups` (position group, athletes) are parts.

    `groups` is empty when they were not told apart. `games` and `practices` are those of one
    season. `injuries` to the sites in the last season, and games missed for them, are None where
    they are not known.
    """

    sport: str
    sex: str
    athletes: int
    groups: tuple[tuple[str, int], ...]
    games: int
    practices: int
    injuries: int | None = None
    games_missed: int | None = None

    @property
    def name(self) -> str:
        """Return the team in words: `women's soccer`."""
        whose = {"women": "women's", "men": "men's"}.get(self.sex, self.sex)
        return f"{whose} {self.sport}"


@dataclass(frozen=True, slots=True)
class Prospect:
    """The teams in the order of the table; `notes` say what of the table was left aside."""

    teams: tuple[ProspectTeam, ...]
    notes: tuple[str, ...] = ()

    @property
    def athletes(self) -> int:
        """Return how many athletes all teams have together."""
        return sum(team.athletes for team in self.teams)


def prospect_of(
    lines: Sequence[Mapping[str, str | None]],
    *,
    file: str = "what was typed",
    rows: Sequence[int] | None = None,
    sports: Sequence[str] = (),
    notes: Sequence[str] = (),
) -> Prospect:
    """Return the prospect that lines of text describe.

    Each line is a team, or a position group of one: cells by column name. Games and practices are
    the team's: the same on its lines, or given on one of them. Messages call the place of the lines
    `file`, and each by its number in `rows`, counted from 1 when left out. `sports` are known
    besides `SPORTS`; `notes` say what of the table was left aside.

    Raises:
        IntakeError: A cell is wrong; every reason is listed with row, column and value.
    """
    reader = _Reader(file, (*SPORTS, *sports))
    places = range(1, len(lines) + 1) if rows is None else rows
    read = [reader.line(row, cells) for row, cells in zip(places, lines, strict=True)]
    by_team: dict[tuple[str, str], list[_Line]] = {}
    for line in read:
        if line.sport and line.sex:
            by_team.setdefault((line.sport, line.sex), []).append(line)
    teams = tuple(reader.team(same) for same in by_team.values())
    if not lines:
        reader.refuse(None, None, None, f"names no team; write {EXAMPLE} and a line for each.")
    if reader.problems:
        raise prospect_error(reader.problems)
    return Prospect(teams, tuple(notes))


def prospect_error(problems: Sequence[Problem]) -> IntakeError:
    """Return the error that refuses a prospect with everything that is wrong with its table."""
    several = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
    ordered = sorted(problems, key=lambda one: one.row or 0)
    said = f"The prospect's table cannot be used: {several}."
    return IntakeError(said, ordered, "Correct the table and ask again.")


@dataclass(frozen=True, slots=True)
class _Line:
    """One line as read; what is empty or wrong is None, what is wrong is named in `wrong`."""

    row: int
    sport: str | None
    sex: str | None
    group: str | None
    numbers: Mapping[str, int | None]
    wrong: frozenset[str]


class _Reader:
    """Reads lines and teams, and gathers what is wrong with them."""

    def __init__(self, file: str, sports: Sequence[str]) -> None:
        self.problems: list[Problem] = []
        self._file = file
        self._sports = sports

    def refuse(
        self,
        row: int | None,
        column: str | None,
        value: str | None,
        said: str,
        near: str | None = None,
    ) -> None:
        shown = value if value is None or len(value) <= _LETTERS else value[: _LETTERS - 1] + "…"
        self.problems.append(Problem(self._file, row, column, shown, said, near))

    def line(self, row: int, cells: Mapping[str, str | None]) -> _Line:
        before = len(self.problems)
        for name in cells.keys() - set(COLUMNS):
            said = f"is not a column of a prospect: {', '.join(COLUMNS)}."
            self.refuse(row, None, name, said, nearest(name, list(COLUMNS)))
        text = {name: (cells.get(name) or "").strip() for name in COLUMNS}
        sport, sex = self._team_words(row, text)
        numbers = {name: self._number(row, name, text[name]) for name in LIMITS}
        told = {one.column for one in self.problems[before:] if one.column}
        return _Line(row, sport, sex, text["position_group"] or None, numbers, frozenset(told))

    def _team_words(self, row: int, text: Mapping[str, str]) -> tuple[str | None, str | None]:
        sport, sex = " ".join(text["sport"].casefold().split()), text["sex"].casefold()
        if (within := _OF_SEX.fullmatch(sport)) is not None:  # as in “women's soccer”
            sport = within[2]
            named = within[1].replace("woman", "women")
            if sex and sex != named:
                said = f"says {named}, but the sex of the line is {sex}; one of them is wrong."
                self.refuse(row, "sport", text["sport"], said)
            sex = sex or named
        words = ", ".join(Sex)
        if not sport:
            self.refuse(row, "sport", None, "is empty; every line needs its sport.")
        elif sport not in self._sports and (
            near := get_close_matches(sport, self._sports, n=1, cutoff=_MISSPELLED)
        ):
            self.refuse(row, "sport", text["sport"], "is not a sport that is known.", near[0])
        if not sex:
            self.refuse(row, "sex", None, f"is empty; write one of: {words}.")
        elif sex not in tuple(Sex):
            said = f"is not one of: {words}."
            self.refuse(row, "sex", text["sex"], said, nearest(sex, list(Sex)))
            sex = ""
        return sport or None, sex or None

    def _number(self, row: int, name: str, text: str) -> int | None:
        low, high = LIMITS[name]
        if not text:
            if name == "athletes":
                self.refuse(row, name, None, "is empty; every line needs its number of athletes.")
            return None
        whole = _WHOLE.fullmatch(text)
        if whole is not None and low <= int(whole[1]) <= high:
            return int(whole[1])
        of = name.replace("_", " ")
        said = f"is not a whole number from {low} to {high}, as one team has {of} in one season."
        self.refuse(row, name, text, said)
        return None

    def team(self, lines: Sequence[_Line]) -> ProspectTeam:
        """Put the lines of one team together."""
        self._check_groups(lines)
        games, practices = (self._of_team(lines, name) for name in ("games", "practices"))
        injuries, missed = (self._of_team(lines, name) for name in (INJURIES, MISSED))
        counted = [(line.group, line.numbers["athletes"] or 0) for line in lines]
        athletes = sum(count for _, count in counted)
        most = LIMITS["athletes"][1]
        if athletes > most:
            said = f"are the athletes of this team's lines together; a team has at most {most}."
            self.refuse(lines[-1].row, "athletes", str(athletes), said)
        groups = tuple((group, count) for group, count in counted if group)
        self._check_last_season(lines[0], athletes, injuries, missed)
        return ProspectTeam(
            lines[0].sport or "",
            lines[0].sex or "",
            athletes,
            groups,
            games or 0,
            practices or 0,
            injuries,
            missed,
        )

    def _check_last_season(
        self, line: _Line, athletes: int, injuries: int | None, missed: int | None
    ) -> None:
        if injuries is not None and injuries > athletes > 0:
            said = f"is more than its {athletes} athletes: give the injuries to the sites that are "
            said += "planned for, not all of the team."
            self.refuse(line.row, INJURIES, str(injuries), said)
        if missed is not None and injuries is None:
            said = "is games missed for injuries that are not given; give both, or leave it empty."
            self.refuse(line.row, MISSED, str(missed), said)
        elif missed and injuries == 0:
            self.refuse(line.row, MISSED, str(missed), "is games missed without any injury.")

    def _check_groups(self, lines: Sequence[_Line]) -> None:
        seen: dict[str, int] = {}
        for line in lines if len(lines) > 1 else ():
            if line.group is None:
                said = "is empty, but the team has other lines; name a position group on each of "
                said += "them, or write the team on one line."
                self.refuse(line.row, "position_group", None, said)
                continue
            first = seen.setdefault(line.group.casefold(), line.row)
            if first != line.row:
                said = f"already stands in row {first} for the same team; keep one line."
                self.refuse(line.row, "position_group", line.group, said)

    def _of_team(self, lines: Sequence[_Line], name: str) -> int | None:
        """Return what all lines of a team say, where at least one says it."""
        given = [line for line in lines if line.numbers[name] is not None]
        if not given:
            if name in {INJURIES, MISSED}:
                return None
            if not any(name in line.wrong for line in lines):
                said = f"is empty; write the {name} of the season on one line of the team."
                self.refuse(lines[0].row, name, None, said)
            return None
        first = given[0]
        for line in given[1:]:
            if line.numbers[name] != first.numbers[name]:
                said = f"is not the {first.numbers[name]} of row {first.row}; {name} are the whole "
                said += "team's: write the same number on its lines, or one number on one of them."
                self.refuse(line.row, name, str(line.numbers[name]), said)
        return first.numbers[name]
