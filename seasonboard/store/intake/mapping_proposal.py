"""A mapping proposed from headings and a sample of the values; the person confirms it once."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seasonboard.errors import Problem
from seasonboard.load_options import ORDERS, LoadOptions
from seasonboard.store.intake.mapping import SheetMapping, SourceMapping
from seasonboard.store.intake.mapping_draft import MappingDraft, examples
from seasonboard.store.intake.sheet_matching import draft_of
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms


@dataclass(frozen=True, slots=True)
class MappingProposal:
    """A mapping to confirm: its text for the person, and the questions it could not answer."""

    mapping: SourceMapping
    text: str
    questions: tuple[Problem, ...]


def propose(
    strangers: Sequence[OpenSheet],
    options: LoadOptions,
    synonyms: Synonyms,
    only: Mapping[str, str],
) -> MappingProposal:
    """Propose how sheets in other words are read.

    Args:
        strangers: The sheets.
        options: Answers given with the command, and the name of the mapping.
        synonyms: What headings and values may be called.
        only: Columns of which the store and this load know one value alone, such as the season.
    """
    drafts = [draft_of(sheet, options, synonyms, only) for sheet in strangers]
    name = options.mapping or _free_name(strangers[0].path.stem, options)
    sheets = tuple(_as_mapping(draft, options) for draft in drafts)
    questions = tuple(one for draft in drafts for one in draft.questions)
    asked = tuple(one.sentence() for one in questions)
    mapping = SourceMapping(name, sheets, asked)
    lines = [f"Proposed mapping “{name}”:"]
    for draft, sheet in zip(drafts, sheets, strict=True):
        lines += _mapping_lines(draft, sheet)
    return MappingProposal(mapping, "\n".join(lines) + "\n", questions)


def _free_name(stem: str, options: LoadOptions) -> str:
    """Return a name after the file that no kept mapping has."""
    plain = re.sub(r"[^\w-]+", "-", stem.casefold()).strip("-") or "source"
    name, place = plain, 1
    while options.mappings and (options.mappings / f"{name}.toml").exists():
        place += 1
        name = f"{plain}-{place}"
    return name


def _as_mapping(draft: MappingDraft, options: LoadOptions) -> SheetMapping:
    constants = {name: value for name, value in draft.constants.items() if name != "time"}
    return SheetMapping(
        draft.table.name,
        draft.sheet.grid.headings,
        draft.columns,
        draft.sheet.path.name,
        constants,
        draft.units,
        dates=draft.dates,
        decimal=options.decimal,
        time=draft.constants.get("time"),
    )


def _mapping_lines(draft: MappingDraft, sheet: SheetMapping) -> list[str]:
    lines = [f"  {draft.sheet.label} → {sheet.table}"]
    wide = max((len(name) for name in [*sheet.columns, *sheet.constants]), default=8)
    for name, headings in sheet.columns.items():
        called = " + ".join(f"“{one}”" for one in headings)
        unit = f" in {sheet.units[name]}" if name in sheet.units else ""
        lines.append(
            f"    {name:<{wide}}  from {called}{unit}: {examples(draft.sheet.grid, headings[0])}"
        )
    lines += [
        f"    {name:<{wide}}  is {value} in all rows" for name, value in sheet.constants.items()
    ]
    (key, *rest) = draft.table.key
    if not rest and key not in sheet.columns and draft.table.key_made_of:
        lines.append(f"    {key:<{wide}}  made of {', '.join(draft.table.key_made_of)}")
    if sheet.dates:
        lines.append(f"    dates are {ORDERS[sheet.dates]}{draft.proof}")
    if sheet.time:
        lines.append(f"    the time of day is {sheet.time} where none is written")
    if free := draft.free():
        lines.append(f"    left out: {', '.join(f'“{one}”' for one in free)}")
    return lines
