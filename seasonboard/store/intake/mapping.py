"""Mappings: how the files of one source are read as our tables. Readable TOML, beside the store."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from seasonboard.errors import IntakeError, Problem
from seasonboard.load_options import DECIMALS, ORDERS
from seasonboard.regular_files import UnusableFileError, read_toml
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.mapping_shape import check_shape
from seasonboard.store.intake.site_columns import KIND, SIDE
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.values import time_zones
from seasonboard.stored_tables import TABLES
from seasonboard.terms import nearest

_WORDS = ("file", "layout", "title")
_WORDS_OR_NONE = ("dates", "decimal", "time_zone", "time", "am", "pm", "blank", "skip_without")
_PLAIN = ("constants", "units", "stages", "sites")
_SECTIONS = ("columns", *_PLAIN, "values")
_NOT_COLUMNS = {"mark", "setting", "team", "season"}
"""Of a grid, what is told of its sessions and cells beside the columns of its table."""

LEFT_OUT = "left out"
"""The table and layout of a sheet that holds no records; `title` is its name."""


@dataclass(frozen=True, slots=True)
class SheetMapping:
    """How one sheet becomes rows of one table.

    `headings` are all those of the sheet, by which it is recognised. `columns` is column →
    headings, joined with a blank; `constants` is column → one value; `units` is column → unit of
    its bare numbers; `values` is column → spelling → value. `dates`, `decimal`, `time_zone` and
    `time` (of instants without one) settle how cells are read; rows without a value in
    `skip_without` are none of this table's.

    `layout` is `dates across` or `dates down` of a grid, which also has `title` (what stands above
    it), `am` and `pm` (times of half days), `blank` (what an empty cell means), and in `values` the
    meaning of each `mark`. `stages` is heading → stage of dates that stand side by side, `sites` is
    heading → kind and side of ticks that do.
    """

    table: str
    headings: tuple[str, ...]
    columns: Mapping[str, tuple[str, ...]]
    file: str = ""
    constants: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    values: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    dates: str | None = None
    decimal: str | None = None
    time_zone: str | None = None
    time: str | None = None
    skip_without: str | None = None
    layout: str = ""
    title: str = ""
    am: str | None = None
    pm: str | None = None
    blank: str | None = None
    stages: Mapping[str, str] = field(default_factory=dict)
    sites: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SourceMapping:
    """All sheets of one source, under a name; `questions` are still open."""

    name: str
    sheets: tuple[SheetMapping, ...]
    questions: tuple[str, ...] = ()


def read_mappings(folder: Path | None) -> list[SourceMapping]:
    """Return the mappings kept in a folder, by name.

    Raises:
        IntakeError: One of them is not what a mapping has to be.
    """
    if folder is None or not folder.is_dir():
        return []
    return [read_mapping(path) for path in sorted(folder.glob("*.toml"))]


def read_mapping(path: Path) -> SourceMapping:
    """Return one mapping.

    Raises:
        IntakeError: It is missing, not TOML, or names what is not known.
    """
    try:
        content = read_toml(path)
        check_shape(content)
    except OSError as error:
        raise _wrong(path, f"cannot be read: {error.strerror}.") from error
    except UnusableFileError as error:
        raise _wrong(path, str(error)) from error
    sheets = content.get("sheet", [])
    if not sheets:
        raise _wrong(path, "holds no [[sheet]].")
    read = tuple(_sheet(path, f"[[sheet]] {nth}", sheet) for nth, sheet in enumerate(sheets, 1))
    return SourceMapping(path.stem, read, tuple(map(str, content.get("questions", []))))


def _sheet(path: Path, where: str, content: Mapping[str, Any]) -> SheetMapping:
    table = str(content.get("table"))
    words: dict[str, Any] = {name: str(content.get(name) or "") for name in _WORDS}
    if table == LEFT_OUT:
        return SheetMapping(LEFT_OUT, (), {}, **{**words, "layout": LEFT_OUT})
    if table not in TABLES:
        said = f"{where}: table is not one of: {', '.join(TABLES)}."
        raise _wrong(path, said, nearest(table, list(TABLES)))
    _check_names(path, where, content)
    columns = {
        name: tuple(map(str, heading)) if isinstance(heading, list) else (str(heading),)
        for name, heading in content.get("columns", {}).items()
        if heading
    }
    headings = tuple(map(str, content.get("headings", [])))
    for heading in (one for many in columns.values() for one in many):
        if heading not in {*headings, KIND, SIDE}:
            said = f"{where}: “{heading}” is not among its headings."
            raise _wrong(path, said, nearest(heading, list(headings)))
    parts: dict[str, Any] = {
        name: {str(key): str(value) for key, value in content.get(name, {}).items() if str(value)}
        for name in _PLAIN
    }
    parts["values"] = {
        name: {
            str(one).casefold() if name == "mark" else folded(str(one)): str(value)
            for one, value in many.items()
        }
        for name, many in content.get("values", {}).items()
    }
    parts |= {name: content.get(name) or None for name in _WORDS_OR_NONE}
    return SheetMapping(table, headings, columns, **words, **parts)


def _check_names(path: Path, where: str, content: Mapping[str, Any]) -> None:
    parts = ["table", "headings", *_WORDS, *_WORDS_OR_NONE, *_SECTIONS]
    for name in content:
        if name not in parts:
            raise _wrong(path, f"{where}: “{name}” is not known here.", nearest(name, parts))
    table = content["table"]
    own = [*own_columns(TABLES[table]), *(_NOT_COLUMNS if content.get("layout") else ())]
    for name in ("columns", "constants", "units", "values"):
        for column in content.get(name, {}):
            if column not in own:
                said = f"{where}: {name}.{column} is not a column of {table}: {', '.join(own)}."
                raise _wrong(path, said, nearest(column, own))
    closed: tuple[tuple[str, Iterable[str]], ...] = (
        ("dates", ORDERS), ("decimal", DECIMALS), ("time_zone", time_zones()),
    )  # fmt: skip
    for name, words in closed:
        word = content.get(name)
        if word and word not in words:
            few = f": {', '.join(words)}" if name != "time_zone" else ", such as America/Chicago"
            said = f"{where}: {name} = “{word}” is not known{few}."
            raise _wrong(path, said, nearest(str(word), list(words)))


def _wrong(path: Path, said: str, near: str | None = None) -> IntakeError:
    problem = Problem(str(path), None, None, None, said, near)
    return IntakeError(problem.sentence(), [problem], "Correct that mapping, or move it away.")


def as_toml(mapping: SourceMapping) -> str:
    """Return a mapping as the text of its file."""
    lines = [f"# How files of the source “{mapping.name}” are read. Edit it as you like."]
    if mapping.questions:
        lines += [
            "# It is used once its questions are answered below and this list is taken out.",
            "questions = [",
            *(f"  {_quoted(one)}," for one in mapping.questions),
            "]",
        ]
    for sheet in mapping.sheets:
        lines += ["", "[[sheet]]"]
        lines += [
            f"{name} = {_quoted(value)}"
            for name in ("table", *_WORDS, *_WORDS_OR_NONE)
            if (value := getattr(sheet, name))
        ]
        if sheet.table == LEFT_OUT:
            continue
        lines.append(f"headings = {_listed(sheet.headings)}")
        lines += _section("columns", sheet.columns)
        for name in _PLAIN:
            lines += _section(name, getattr(sheet, name))
        for column, many in sheet.values.items():
            lines += _section(f"values.{column}", many)
    return "\n".join(lines) + "\n"


def _section(name: str, pairs: Mapping[str, str | tuple[str, ...]]) -> list[str]:
    """Return a section; keys that are columns of ours stand bare, headings and spellings quoted."""
    is_bare = name in {"columns", "constants", "units"}
    lines = [
        f"{key if is_bare else _quoted(key)} = {_one_or_more(value)}"
        for key, value in pairs.items()
    ]
    return ["", f"[sheet.{name}]", *lines] if lines else []


def _one_or_more(value: str | tuple[str, ...]) -> str:
    words = (value,) if isinstance(value, str) else value
    return _quoted(words[0]) if len(words) == 1 else _listed(words)


def _listed(words: Sequence[str]) -> str:
    return "[" + ", ".join(map(_quoted, words)) + "]"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")


def same_headings(sheet: SheetMapping, headings: Sequence[str]) -> bool:
    """Say whether a sheet has the headings of a mapping, in any order."""
    gone, new, _ = changed_headings(sheet, headings)
    return not gone and not new


def changed_headings(
    sheet: SheetMapping, headings: Sequence[str]
) -> tuple[list[str], list[str], float]:
    """Return the headings that are gone, those that are new, and the share that stayed."""
    before = {folded(one): one for one in sheet.headings}
    now = {folded(one): one for one in headings}
    gone = [one for key, one in before.items() if key not in now]
    new = [one for key, one in now.items() if key not in before]
    return gone, new, len(before.keys() & now.keys()) / max(1, len(before.keys() | now.keys()))
