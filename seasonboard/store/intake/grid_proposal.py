"""How a grid with days across or down is proposed to be read: team, season, marks, blanks."""

import calendar
from collections.abc import Mapping, Sequence

import polars as pl

from seasonboard.errors import OpenQuestion
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.date_grid import ACROSS, DateGrid, grid_holds
from seasonboard.store.intake.grid_sources import meaning_of, years_of
from seasonboard.store.intake.key_matching import pair_called
from seasonboard.store.intake.legends import (
    BLANK,
    NO_ROW,
    WEAR,
    legend_of,
    marks_answered,
    said_meaning,
    usual_meaning,
)
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import DraftKnowledge, MappingDraft, share_of
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.teams_by_name import team_question
from seasonboard.store.intake.text_columns import folded, folded_names, joined_cells
from seasonboard.store.intake.title_words import season_of, season_question, teams_called
from seasonboard.stored_tables import TABLES

MEANINGS = {
    WEAR: ("yes all", "yes part", "no", NO_ROW),
    "attendance": ("full", "limited", "out", "out injury", "out illness", NO_ROW),
}
_NOTHING = frozenset({NO_ROW, "no", "none", "nothing", "not marked", "empty"})
"""Answers by which a blank of attendance is no row."""
_SETTING_WORDS = {
    "game": {"games", "matches", "game"},
    "practice": {"practice", "practices", "training"},
}
_SHOWN_MARKS, _LISTED_MARKS = 3, 8
LABEL_COLUMNS = ("athlete_name", "athlete_jersey", "guard_kind", "guard_side", "athlete")
"""What a column beside the days of a grid may be."""


def grid_draft(
    sheet: OpenSheet, grid: DateGrid, known: DraftKnowledge, legend: Mapping[str, Mapping[str, str]]
) -> tuple[MappingDraft, SheetMapping]:
    """Draft how the grid of a sheet is read; what cannot be told from it is a question.

    `legend` is what other sheets of the file say: `attendance` or `wear` → mark → meaning.
    """
    options = known.options
    holds = grid_holds(grid, f"{sheet.name} {sheet.path.stem}")
    draft = MappingDraft(sheet, TABLES[holds], known)
    draft.columns = _columns(grid, holds, known.synonyms, options)
    _settle_team(draft, grid)
    _settle_season(draft)
    answered = marks_answered(options.constants, holds)
    marks = dict(legend.get(holds, {})) | legend_of(grid.titles, holds) | answered
    _ask_marks(draft, grid, marks)
    blank = _blank(draft, grid, marks)
    _settle_setting(draft, grid)
    no_year = years_of(sheet, draft.constants.get("season")) is None
    if no_year and not all(day.day.year for day in grid.days) and not draft.questions:
        said = "the days have no year. Say the season with --value season='2026 fall'."
        _ask(draft, "season", said, ())
    constants = ("team", "season", "setting")
    mapping = SheetMapping(
        holds, grid.labels, draft.columns, sheet.path.name,
        {name: draft.constants[name] for name in constants if name in draft.constants},
        values={"mark": {mark: meaning for mark, meaning in marks.items() if mark != BLANK}},
        layout=grid.layout, title=grid.titles[0] if grid.titles else "", blank=blank,
        time=_option(options, holds, "time"), am=_option(options, holds, "am"),
        pm=_option(options, holds, "pm"),
    )  # fmt: skip
    return draft, mapping


def grid_lines(draft: MappingDraft, part: SheetMapping, grid: DateGrid) -> list[str]:
    """Return the proposal of a grid in lines."""
    what = "wear" if part.table == WEAR else "sessions and attendance"
    where = "column" if grid.layout == ACROSS else "row"
    ends = (grid.days[0].day, grid.days[-1].day)
    span = " to ".join(f"{calendar.month_abbr[one.month]} {one.day}" for one in ends)
    under = ", ".join(f"“{one}” ({name})" for name, many in part.columns.items() for one in many)
    shown = [f"{mark} {meaning_of(mark, part)}" for mark in grid.marks]
    return [
        f"  {draft.sheet.label} → {what}: a day in each {where}, {len(grid.days)} from {span}",
        f"    {grid.people.height} people, under {under}",
        *(f"    {name} is {value} in all rows" for name, value in part.constants.items()),
        f"    marks: {', '.join(shown)}; blank {part.blank or NO_ROW}",
    ]


def _option(options: LoadOptions, table: str, name: str) -> str | None:
    return options.constants.get(f"{table}.{name}") or options.constants.get(name)


def _columns(
    grid: DateGrid, holds: str, synonyms: Synonyms, options: LoadOptions
) -> dict[str, tuple[str, ...]]:
    """Return what the labels beside the days are: name, jersey, kind of guard, side."""
    columns: dict[str, tuple[str, ...]] = {
        column: (heading,)
        for name, heading in options.columns.items()
        if (column := name.rpartition(".")[2]) in LABEL_COLUMNS and heading in grid.labels
    }
    if both := pair_called(grid.labels):
        columns.setdefault("athlete_name", both)
    for label in grid.labels:
        called = _label_column(label, grid, holds, synonyms)
        if called and not any(label in many for many in columns.values()):
            columns.setdefault(called, (label,))
    if not {"athlete_name", "athlete", "athlete_jersey"} & columns.keys() and len(grid.labels) == 1:
        columns = {"athlete_name": grid.labels}
    return columns


def _label_column(label: str, grid: DateGrid, holds: str, synonyms: Synonyms) -> str | None:
    cells = grid.people[label].drop_nulls()
    if len(cells) and cells.str.contains(r"^#?\d{1,3}$").all():
        return "athlete_jersey"
    called = set(synonyms.columns_called(holds, label))
    if holds == WEAR:
        if {"kind", "guard_kind"} & called or folded(label) in {"guard", "brace", "body part"}:
            return "guard_kind"
        if {"side", "guard_side"} & called:
            return "guard_side"
    is_like_names = share_of(cells.str.contains(r"\p{L}{2,}[ ,]+\p{L}")) >= 0.5
    return "athlete_name" if is_like_names or {"athlete_name", "athlete"} & called else None


def _settle_team(draft: MappingDraft, grid: DateGrid) -> None:
    known = draft.known
    answer = _option(known.options, draft.table.name, "team")
    titles = [answer] if answer else draft.sheet.titles
    fitting = teams_called(titles, known.teams, known.synonyms)
    if answer and not fitting:
        draft.constants["team"] = answer
        return
    by_people = _teams_of_people(draft, grid)
    if len(fitting) > 1:
        fitting = [team for team in fitting if team in by_people] or fitting
    if not fitting:
        fitting = by_people or ([known.only["team"]] if "team" in known.only else [])
    if len(fitting) == 1:
        draft.constants["team"] = fitting[0]
        return
    choices = tuple(fitting or known.teams["team"].to_list())
    said = team_question(choices, draft.sheet.titles, known.synonyms)
    _ask(draft, "team", said, choices)


def _teams_of_people(draft: MappingDraft, grid: DateGrid) -> list[str]:
    """Return the team on whose roster most of the people stand, when at least half do."""
    headings, people = draft.columns.get("athlete_name", ()), draft.known.people
    if not headings or people.is_empty():
        return []
    names = grid.people.select(name=joined_cells(headings))["name"]
    names = folded_names(names).drop_nulls().unique()
    listed = people.unique(["team", "name"]).filter(pl.col("name").is_in(names.implode()))
    counts = listed["team"].value_counts(sort=True)
    most = int(counts["count"].head(1).sum())
    return counts.filter(count=most)["team"].to_list() if most * 2 >= len(names) else []


def _settle_season(draft: MappingDraft) -> None:
    known = draft.known
    season = _option(known.options, draft.table.name, "season")
    season = season or season_of(draft.sheet.titles, known.seasons, known.only.get("season"))
    if season:
        draft.constants["season"] = season
    elif draft.table.name != WEAR:
        said = season_question(draft.sheet.titles, known.seasons)
        _ask(draft, "season", said, tuple(known.seasons))


def _ask_marks(draft: MappingDraft, grid: DateGrid, legend: Mapping[str, str]) -> None:
    """Ask about the marks that neither a legend nor usage explains."""
    holds = draft.table.name
    unknown = [
        mark for mark in grid.marks if mark not in legend and usual_meaning(mark, holds) is None
    ]
    if not unknown:
        return
    meanings = MEANINGS[holds]
    shown = ", ".join(f"“{one}” ({grid.marks[one]} cells)" for one in unknown[:_LISTED_MARKS])
    example = ", ".join(f"{one}={meanings[0]}" for one in unknown[:_SHOWN_MARKS])
    said = f"nothing says what these marks mean: {shown}. Say it with --value marks='{example}' "
    said += f"({', '.join(meanings)})."
    _ask(draft, "marks", said, [f"{unknown[0]}={meaning}" for meaning in meanings])


def _blank(draft: MappingDraft, grid: DateGrid, marks: Mapping[str, str]) -> str:
    """Settle what a blank cell means: as answered, as the legend says, or by the other marks."""
    holds = draft.table.name
    answer = _option(draft.known.options, holds, "blank")
    meaning = said_meaning(answer, holds) if answer else marks.get(BLANK)
    if meaning or (answer and folded(answer) in _NOTHING):
        return meaning or NO_ROW
    meant = {marks.get(mark) or usual_meaning(mark, holds) or "" for mark in grid.marks}
    tells_out = "no" in meant or any(one.startswith("out") for one in meant)
    many = grid.cells["mark"].null_count()
    if many and (answer or not tells_out):
        other, words = ("no", "not worn") if holds == WEAR else ("out", "out")
        said = f"{many:,} cells are blank. Do they mean {words}, or that nothing was recorded? Say "
        said += f"it with --value blank={other} or --value blank='{NO_ROW}'."
        _ask(draft, "blank", said, (other, NO_ROW))
    return NO_ROW


def _settle_setting(draft: MappingDraft, grid: DateGrid) -> None:
    answer = _option(draft.known.options, draft.table.name, "setting")
    words = set(folded(" ".join(draft.sheet.titles)).split())
    titled = [setting for setting, known in _SETTING_WORDS.items() if known & words]
    if answer:
        draft.constants["setting"] = answer
    elif all(day.setting for day in grid.days):
        return
    elif titled:
        draft.constants["setting"] = titled[0]
    elif draft.table.name != WEAR and not any(day.setting for day in grid.days):
        said = "nothing says whether these are games or practices. Say it with --value "
        said += "setting=game or --value setting=practice."
        _ask(draft, "setting", said, ("game", "practice"))


def _ask(draft: MappingDraft, column: str, said: str, choices: Sequence[str]) -> None:
    question = OpenQuestion(draft.sheet.label, None, column, None, said, None, "value",
                            draft.table.name, tuple(choices), may_fill=True)  # fmt: skip
    draft.questions.append(question)
