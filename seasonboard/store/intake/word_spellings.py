"""Words of closed lists in the many ways people spell them."""

from collections.abc import Iterable, Mapping, Sequence

import polars as pl

from seasonboard.store.intake.problems import Findings, as_shown
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded

_IN_SENTENCES = frozenset({"mechanism", "setting"})
_SHOWN = 6
"""So many spellings stand in one note."""


def meanings(
    spellings: Sequence[str], column: str, words: Sequence[str], synonyms: Synonyms
) -> dict[str, str]:
    """Return what each spelling in a column means of its closed list; unknown ones are left out."""
    exact = {word.casefold(): str(word) for word in words}
    own = {folded(word): str(word) for word in words}
    close = own | dict(synonyms.words.get(column, {})) | own
    meant = {}
    for one in spellings:
        word = exact.get(one.casefold()) or close.get(folded(one))
        word = word or _beside_other(folded(one), column, close, synonyms)
        word = word or _of_parts(one, column, close) or _within(folded(one), column, close)
        if word is not None:
            meant[one] = word
    return meant


def _beside_other(
    spelling: str, column: str, close: Mapping[str, str], synonyms: Synonyms
) -> str | None:
    """Read a side or an area that stands beside the other one, as in “left knee”."""
    other = {"side": "area", "area": "side"}.get(column)
    if other is None or " " not in spelling:
        return None
    beside = synonyms.words.get(other, {})
    parts = spelling.split(" ")
    for first, rest in ((parts[0], " ".join(parts[1:])), (parts[-1], " ".join(parts[:-1]))):
        for own, also in ((first, rest), (rest, first)):
            if own in close and (also in beside or also in beside.values()):
                return close[own]
    return None


def _of_parts(spelling: str, column: str, close: Mapping[str, str]) -> str | None:
    """Read an area of two names for one, as in “Ribs / chest”."""
    if column != "area" or "/" not in spelling:
        return None
    meant = {close.get(folded(part)) for part in spelling.split("/")}
    return meant.pop() if len(meant) == 1 else None


def _within(spelling: str, column: str, close: Mapping[str, str]) -> str | None:
    """Read what a form answers in a sentence by the longest known spelling within it."""
    if column not in _IN_SENTENCES or " " not in spelling:
        return None
    within = [one for one in close if one and f" {one} " in f" {spelling} "]
    return close[max(within, key=len)] if within else None


def side_within(spelling: str, synonyms: Synonyms) -> str | None:
    """Return the side that an area was written with, as `left` in “left knee”."""
    own = synonyms.words.get("side", {})
    close = dict(own) | {word: word for word in own.values()}
    return _beside_other(folded(spelling), "side", close, synonyms)


def with_sides_apart(
    spellings: Iterable[str], column: str, names: Sequence[str], synonyms: Synonyms
) -> dict[str, tuple[str, tuple[str, ...]]]:
    """Return which kind of guard, or area, each spelling means, and the sides within it.

    “Shin (pair)” is the shin and both; spellings that mean none of `names` are left out.
    """
    listed = synonyms.words.get(column, {}).items()
    close = {spelling: name for spelling, name in listed if name in names}
    close |= {folded(name): str(name) for name in names}
    meant = {}
    for one in spellings:
        bare, sides = synonyms.parted_from_sides(one)
        name = close.get(folded(one)) or close.get(bare) or close.get(bare.removesuffix("s"))
        if name:
            meant[one] = (name, sides)
    return meant


def tell_meanings(
    text: pl.DataFrame, name: str, meant: Mapping[str, str], findings: Findings
) -> None:
    """Note which spellings were read as which words, with their counts."""
    others = {one: word for one, word in meant.items() if one.casefold() != word.casefold()}
    if not others:
        return
    counts = (
        text.filter(pl.col(name).is_in(list(others)))
        .group_by("file_no", name, maintain_order=True)
        .agg(rows=pl.len(), first=pl.col("file_row").min())
        .sort("file_no", "first", maintain_order=True)
    )
    for part in counts.partition_by("file_no", maintain_order=True):
        shown = [
            f"“{as_shown(one)}” as {others[one]} ({rows:,})"
            for one, rows in part.head(_SHOWN).select(name, "rows").iter_rows()
        ]
        more = f" and {part.height - _SHOWN} more spellings" if part.height > _SHOWN else ""
        number = int(part["file_no"][0])
        row, _ = findings.origin(number, int(part["first"][0]))
        said = f"spellings were read: {', '.join(shown)}{more}."
        findings.tell(findings.labels[number], said, row, name)
