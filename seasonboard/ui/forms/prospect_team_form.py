"""The form of one team of a prospect, and the table of all of them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from seasonboard.answers.rows import Cell, Column, Rows
from seasonboard.errors import IntakeError, Problem
from seasonboard.prospect import (
    COLUMNS,
    INJURIES,
    LIMITS,
    MISSED,
    SPORTS,
    Prospect,
    ProspectTeam,
    prospect_of,
)
from seasonboard.terms import Sex
from seasonboard.ui.forms.form import FieldKind, FormField, FormValues, InputForm

_GROUPS = "position_group"
_GROUP = re.compile(r"(.+?)[\s:=]+([0-9]+)")
_LIKE = "write groups and their athletes, such as “goalkeeper 3, defender 9”."


def team_form(sports: Sequence[str]) -> InputForm:
    """Return the form of one team; `sports` are those of the store, which stand first."""
    listed = tuple(dict.fromkeys((*(sport.casefold() for sport in sports), *SPORTS)))
    return InputForm(
        "A team of the prospect, for one season",
        (
            FormField(
                "sport", "sport", FieldKind.WORD, listed, is_required=True, takes_others=True
            ),
            FormField("sex", "sex", FieldKind.WORD, tuple(Sex), is_required=True),
            FormField("athletes", "athletes", hint="how many are on the roster"),
            FormField("games", "games", is_required=True, hint="how many it plays in one season"),
            FormField("practices", "practices", is_required=True, hint="how many in one season"),
            FormField(
                INJURIES, "injuries", hint="of last season at the sites planned for; may stay empty"
            ),
            FormField(MISSED, "games missed", hint="for these injuries; may stay empty"),
            FormField(_GROUPS, "position groups", hint=f"may stay empty; {_LIKE}"),
        ),
    )


def typed_team(team: ProspectTeam) -> Mapping[str, str]:
    """Return what stands in the form for a team."""
    parts = [f"{name} {athletes}" for name, athletes in team.groups]
    between = "; " if any("," in part for part in parts) else ", "
    return {
        "sport": team.sport,
        "sex": team.sex,
        "athletes": str(team.athletes),
        "games": str(team.games),
        "practices": str(team.practices),
        INJURIES: "" if team.injuries is None else str(team.injuries),
        MISSED: "" if team.games_missed is None else str(team.games_missed),
        _GROUPS: between.join(parts),
    }


def read_team(
    values: FormValues, *, sports: Sequence[str], others: Sequence[ProspectTeam]
) -> ProspectTeam:
    """Return the team that stands in a form; `sports` are those of the store.

    Raises:
        IntakeError: A field cannot be read; its problem is named after its column.
    """
    groups = _groups(values.get(_GROUPS, ""))
    common = {name: values.get(name, "") for name in COLUMNS if name not in {_GROUPS, "athletes"}}
    lines = [{**common, _GROUPS: name, "athletes": athletes} for name, athletes in groups] or [
        {**common, "athletes": values.get("athletes", "")}
    ]
    try:
        (team,) = prospect_of(lines, sports=sports).teams
    except IntakeError as refused:
        problems = [
            replace(one, column=_GROUPS) if groups and one.column == "athletes" else one
            for one in refused.problems  # athletes of groups stand with the groups
        ]
        raise _refused(*problems) from None
    typed = values.get("athletes", "").strip()
    if groups and typed not in {"", str(team.athletes)}:
        summary = f"is not the {team.athletes} of the position groups together; correct one of "
        raise _refused(Problem("", None, "athletes", typed, f"{summary}them, or leave this empty."))
    for number, other in enumerate(others, 1):
        if (other.sport, other.sex) == (team.sport, team.sex):
            summary = f"is {other.sex}'s too in line {number} of the teams; change that line."
            raise _refused(Problem("", None, "sport", team.sport, summary))
    return team


def _groups(text: str) -> list[tuple[str, str]]:
    parts = [part.strip() for part in re.split(";" if ";" in text else ",", text) if part.strip()]
    matches = [(part, _GROUP.fullmatch(part)) for part in parts]
    wrong = [part for part, match in matches if match is None]
    if wrong:
        sentence = f"has no number; {_LIKE}"
        raise _refused(*(Problem("", None, _GROUPS, part, sentence) for part in wrong))
    return [(match[1], match[2]) for _, match in matches if match is not None]


def _refused(*problems: Problem) -> IntakeError:
    return IntakeError("The team cannot be taken so.", problems)


def prospect_rows(prospect: Prospect) -> Rows:
    """Return the teams as the table that `--teams` reads: a line a team or position group."""
    rows: list[tuple[Cell, ...]] = [
        (team.sport, team.sex, name, athletes, *_of_team(team))
        for team in prospect.teams
        for name, athletes in (team.groups or ((None, team.athletes),))
    ]
    columns = tuple(Column(name, name, is_number=name in LIMITS) for name in COLUMNS)
    return Rows("The prospect's teams", columns, tuple(rows), len(rows), len(rows))


def _of_team(team: ProspectTeam) -> tuple[int | None, ...]:
    return team.games, team.practices, team.injuries, team.games_missed
