"""How a grid with days across or down is proposed to be read: team, season, marks, blanks."""

import calendar
from collections.abc import Mapping, Sequence

import polars as pl

from seasonboard.errors import OpenQuestion
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.date_grid import DateGrid, grid_holds
from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.folding import folded, folded_name
from seasonboard.store.intake.grid_sources import has_blanks, unknown_marks, years_of
from seasonboard.store.intake.heading_days import HeadingDay
from seasonboard.store.intake.key_matching import first_and_last
from seasonboard.store.intake.legends import (
    BLANK,
    NO_ROW,
    WEAR,
    legend_of,
    said_meaning,
    usual_meaning,
)
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.mapping_draft import MappingDraft, share_of
from seasonboard.store.intake.new_teams import EXAMPLE
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.title_words import season_called, season_written, teams_called
from seasonboard.stored_tables import TABLES

_MEANINGS = {
    WEAR: ("yes all", "yes part", "no", NO_ROW),
    "attendance": ("full", "limited", "out", "out injury", "out illness", NO_ROW),
}
_NOTHING = frozenset({NO_ROW, "no", "none", "nothing", "not marked", "empty"})
"""Answers by which a blank of attendance is no row."""
_SHOWN_MARKS = 3
LABEL_COLUMNS = ("athlete_name", "athlete_jersey", "guard_kind", "guard_side", "athlete")
"""What a column beside the days of a grid may be."""


def grid_draft(
    sheet: OpenSheet, grid: DateGrid, known: DraftKnowledge, legend: Mapping[str, Mapping[str, str]]
) -> tuple[MappingDraft, SheetMapping]:
    """Draft how a grid is read; what cannot be told from it is a question of the draft.

    Args:
        sheet: The sheet.
        grid: The grid in it.
        known: The answers given, and the teams, people and seasons there are.
        legend: What other sheets of the file say of marks: `attendance` or `wear` → mark →
            meaning.
    """
    options, synonyms = known.options, known.synonyms
    holds = grid_holds(grid, f"{sheet.name} {sheet.path.stem}")
    draft = MappingDraft(sheet, TABLES[holds])
    draft.columns = _columns(grid, holds, synonyms, options)
    titles = (*grid.titles, sheet.name, sheet.path.stem)
    _settle_team(draft, grid, titles, known)
    _settle_season(draft, titles, known)
    marks = dict(legend.get(holds, {})) | legend_of(grid.titles, holds) | _answered(options, holds)
    _settle_marks(draft, grid, holds, marks)
    blank = _blank(draft, grid, holds, marks, options)
    _settle_setting(draft, grid, titles, options)
    no_year = years_of(sheet, draft.constants.get("season")) is None
    if no_year and not all(day.day.year for day in grid.days) and not draft.questions:
        said = "the days have no year. Say the season with --value season='2026 fall'."
        _ask(draft, "season", said, ())
    mapping = SheetMapping(
        holds,
        grid.labels,
        draft.columns,
        sheet.path.name,
        {
            name: draft.constants[name]
            for name in ("team", "season", "setting")
            if name in draft.constants
        },
        values={"mark": {mark: meaning for mark, meaning in marks.items() if mark != BLANK}},
        layout=grid.layout,
        title=grid.titles[0] if grid.titles else "",
        time=_option(options, holds, "time"),
        am=_option(options, holds, "am"),
        pm=_option(options, holds, "pm"),
        blank=blank,
    )
    return draft, mapping


def grid_lines(draft: MappingDraft, part: SheetMapping, grid: DateGrid) -> list[str]:
    """Return the proposal of a grid in lines."""
    what = "wear" if part.table == WEAR else "sessions and attendance"
    where = "column" if grid.layout == "dates across" else "row"
    first, last = (f"{calendar.month_abbr[one.month]} {one.day}" for one in _ends(grid))
    lines = [
        f"  {draft.sheet.label} → {what}: a day in each {where}, "
        f"{len(grid.days)} from {first} to {last}",
        f"    {grid.people.height} people, under "
        + ", ".join(f"“{one}” ({name})" for name, many in part.columns.items() for one in many),
    ]
    lines += [f"    {name} is {value} in all rows" for name, value in part.constants.items()]
    meant = part.values.get("mark", {})
    shown = [f"{mark} {meant.get(mark) or usual_meaning(mark, part.table)}" for mark in grid.marks]
    lines.append(f"    marks: {', '.join(shown)}; blank {part.blank or NO_ROW}")
    return lines


def _ends(grid: DateGrid) -> tuple[HeadingDay, HeadingDay]:
    return grid.days[0].day, grid.days[-1].day


def _option(options: LoadOptions, table: str, name: str) -> str | None:
    return options.constants.get(f"{table}.{name}") or options.constants.get(name)


def _columns(
    grid: DateGrid, holds: str, synonyms: Synonyms, options: LoadOptions
) -> dict[str, tuple[str, ...]]:
    """Return what the labels beside the days are: name, jersey, kind of guard, side."""
    columns: dict[str, tuple[str, ...]] = {}
    for given, heading in options.columns.items():
        answered = given.rpartition(".")[2]
        if answered in LABEL_COLUMNS and heading in grid.labels:
            columns[answered] = (heading,)
    if both := first_and_last(grid.labels):
        columns.setdefault("athlete_name", both)
    for label in grid.labels:
        column = _label_column(label, grid, holds, synonyms)
        if column and column not in columns and not any(label in many for many in columns.values()):
            columns[column] = (label,)
    if not {"athlete_name", "athlete", "athlete_jersey"} & columns.keys() and len(grid.labels) == 1:
        columns = {"athlete_name": grid.labels}
    return columns


def _label_column(label: str, grid: DateGrid, holds: str, synonyms: Synonyms) -> str | None:
    cells = grid.people[label].drop_nulls()
    numbers = len(cells) > 0 and bool(cells.str.contains(r"^#?\d{1,3}$").all())
    if numbers:
        return "athlete_jersey"
    called = synonyms.columns_called(holds, label)
    if holds == WEAR:
        for column, own in (("guard_kind", "kind"), ("guard_side", "side")):
            if (
                own in called
                or column in called
                or folded(label) in {"guard", "brace", "body part"}
            ):
                return column
    name_like = len(cells) > 0 and share_of(cells.str.contains(r"\p{L}{2,}[ ,]+\p{L}")) >= 0.5
    if name_like or {"athlete_name", "athlete"} & set(called):
        return "athlete_name"
    return None


def _settle_team(
    draft: MappingDraft, grid: DateGrid, titles: Sequence[str], known: DraftKnowledge
) -> None:
    answer = _option(known.options, draft.table.name, "team")
    fitting = teams_called([answer] if answer else titles, known.teams, known.synonyms)
    if answer and not fitting:
        draft.constants["team"] = answer
        return
    by_people = _teams_of_people(draft, grid, known)
    if len(fitting) > 1 and by_people:
        fitting = [team for team in fitting if team in by_people] or fitting
    if not fitting:
        fitting = by_people or ([known.only["team"]] if "team" in known.only else [])
    if len(fitting) == 1:
        draft.constants["team"] = fitting[0]
        return
    choices = tuple(fitting or known.teams["team"].to_list())
    _ask(draft, "team", team_question(choices), choices)


def team_question(choices: Sequence[str]) -> str:
    """Return the question which team a sheet is of; of no known one, how to make one."""
    said = "no title, name or roster says which team this is. Say it with --value team="
    if choices:
        return f"{said}TEAM ({', '.join(choices)})."
    return f"{said}'{EXAMPLE}': the department, who plays, the sport and the time zone."


def _teams_of_people(draft: MappingDraft, grid: DateGrid, known: DraftKnowledge) -> list[str]:
    """Return the team on whose roster most of the people stand, when at least half do."""
    headings = draft.columns.get("athlete_name", ())
    if not headings or known.people.is_empty():
        return []
    names = grid.people.select(
        pl.concat_str(list(headings), separator=" ", ignore_nulls=True).alias("name")
    )["name"]
    folds = pl.DataFrame({"name": [folded_name(one) for one in names.drop_nulls()]}).unique()
    counts = known.people.unique(["team", "name"]).join(folds, on="name", how="semi")
    listed = counts["team"].value_counts(sort=True)
    if listed.is_empty() or listed["count"][0] * 2 < folds.height:
        return []
    return listed.filter(pl.col("count") == listed["count"][0])["team"].to_list()


def _settle_season(draft: MappingDraft, titles: Sequence[str], known: DraftKnowledge) -> None:
    answer = _option(known.options, draft.table.name, "season")
    season = answer or season_called(titles, known.seasons) or known.only.get("season")
    season = season or season_written(titles)
    if season:
        draft.constants["season"] = season
    elif draft.table.name != WEAR:
        said = "nothing says which season this is. Say it with --value season='2026 fall'"
        also = f" (there are {', '.join(known.seasons)})." if known.seasons else "."
        _ask(draft, "season", said + also, tuple(known.seasons))


def _answered(options: LoadOptions, holds: str) -> dict[str, str]:
    """Return the meanings of marks that the command gives: `marks='Z=out injury, Q=full'`."""
    given = _option(options, holds, "marks") or ""
    pairs = (part.partition("=")[::2] for part in given.split(","))
    return {
        mark.strip().casefold(): said_meaning(meaning, holds) or meaning.strip().casefold()
        for mark, meaning in pairs
        if mark.strip() and meaning.strip()
    }


def _settle_marks(
    draft: MappingDraft, grid: DateGrid, holds: str, marks: Mapping[str, str]
) -> None:
    unknown = unknown_marks(grid, holds, dict(marks))
    if not unknown:
        return
    counts = dict(grid.cells["mark"].str.to_lowercase().value_counts().iter_rows())
    shown = ", ".join(f"“{one}” ({counts.get(one, 0)} cells)" for one in unknown[:8])
    example = ", ".join(f"{one}={_MEANINGS[holds][0]}" for one in unknown[:_SHOWN_MARKS])
    said = f"nothing says what these marks mean: {shown}. Say it with --value marks='{example}' "
    said += f"({', '.join(_MEANINGS[holds])})."
    _ask(draft, "marks", said, [f"{unknown[0]}={meaning}" for meaning in _MEANINGS[holds]])


def _blank(
    draft: MappingDraft, grid: DateGrid, holds: str, marks: Mapping[str, str], options: LoadOptions
) -> str:
    """Settle what a blank cell means: as answered, as the legend says, or by the other marks."""
    answer = _option(options, holds, "blank")
    meant_by = said_meaning(answer, holds) if answer else None
    if answer and (meant_by or folded(answer) in _NOTHING):
        return meant_by or NO_ROW
    if BLANK in marks and not answer:
        return marks[BLANK]
    meant = {marks.get(mark) or usual_meaning(mark, holds) for mark in grid.marks}
    tells_out = "no" in meant or any((one or "").startswith("out") for one in meant)
    if not has_blanks(grid) or (tells_out and not answer):
        return NO_ROW
    many = grid.cells["mark"].null_count()
    other = "no" if holds == WEAR else "out"
    words = "not worn" if holds == WEAR else "out"
    said = f"{many:,} cells are blank. Do they mean {words}, or that nothing was recorded? Say it "
    said += f"with --value blank={other} or --value blank='{NO_ROW}'."
    _ask(draft, "blank", said, (other, NO_ROW))
    return NO_ROW


def _settle_setting(
    draft: MappingDraft, grid: DateGrid, titles: Sequence[str], options: LoadOptions
) -> None:
    answer = _option(options, draft.table.name, "setting")
    words = set(folded(" ".join(titles)).split())
    if answer:
        draft.constants["setting"] = answer
    elif all(day.setting for day in grid.days):
        return
    elif words & {"games", "matches", "game"}:
        draft.constants["setting"] = "game"
    elif words & {"practice", "practices", "training"}:
        draft.constants["setting"] = "practice"
    elif draft.table.name != WEAR and not any(day.setting for day in grid.days):
        said = "nothing says whether these are games or practices. Say it with --value "
        said += "setting=game or --value setting=practice."
        _ask(draft, "setting", said, ("game", "practice"))


def _ask(draft: MappingDraft, column: str, said: str, choices: Sequence[str]) -> None:
    question = OpenQuestion(draft.sheet.label, None, column, None, said, None, "value",
                            draft.table.name, tuple(choices), may_fill=True)  # fmt: skip
    draft.questions.append(question)
