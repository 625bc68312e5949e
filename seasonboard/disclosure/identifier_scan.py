"""The identifier scan: names, keys, jerseys, logins and paths in what was written, hidden parts."""

import re
import unicodedata
import zipfile
import zlib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from html import unescape
from importlib.resources import files
from importlib.resources.abc import Traversable
from io import BytesIO

from seasonboard.errors import SeasonboardError

_MONTHS = """
january february march april may june july august september october november december
"""
_DAYS = "monday tuesday wednesday thursday friday saturday sunday"
ORDINARY = frozenset(f"{_MONTHS} {_DAYS} and not the will".split())
"""Words that stand in documents anyway: alone they are not taken for a part of a name."""

PATHS = {
    "/home/": r"/home/",
    "/Users/": r"/users/",
    "/root/": r"/root/",
    "/tmp/": r"/tmp/",  # noqa: S108 - looked for, not used
    "/var/folders/": r"/var/folders/",
    "C:\\": r"(?<![^\W_])[a-z]:\\",
    "file:/": r"file:/",
}
"""Beginnings of paths, which tell who made a document and where the records are."""

_WORD = re.compile(r"[^\W_]+")
_PLAIN = re.compile(rb"[\t\n\r\x20-\x7e]{12,}")
_WIDE = re.compile(rb"(?:[\x00-\x02][\x20-\xff]){4,}")
"""Letters in a row among packed bytes: plain ones, and as in the properties of a PDF."""
_UNSEEN = {
    "a hidden sheet": r"<sheet\b[^>]*\bstate=\"(?:hidden|veryHidden)\"",
    "a hidden name": r"<definedName\b(?![^>]*_xlnm)[^>]*\bhidden=\"1\"",
    "a hidden row or column": r"<(?:col|row)\b[^>]*\bhidden=\"(?:1|true)\"",
    "a comment": r"<!--|<comment\b",
    "text that is not shown": r"display:\s*none|<\w+[^>]*\shidden(?:[\s>]|=\"(?:hidden)?\")",
}
_STYLE = re.compile(rb"<style>.*?</style>", re.DOTALL)
"""The page's own style, which leaves an empty cell out on a phone."""
_JERSEY = re.compile(r"(?:#|№|\bno\.?|\bnumber|\bjersey(?: number)?)\s*([^\W_]+)")
_SOURCES = ("answers", "documents", "published", "stats")
_LETTERS_BY_CHANCE = 6
"""Letters from which a word does not stand in packed bytes by chance."""
_SHORTEST_KEY, _SHORTEST_NUMBER = 3, 5
"""Letters of a key below which it stands in any text; figures, where it is nothing else."""


class IdentifierError(SeasonboardError):
    """A handout would be called, or would say, what outsiders may not know."""


@dataclass(frozen=True, slots=True)
class ForbiddenWords:
    """Words that may stand nowhere in a document.

    Each part of a name is looked for as well; jersey numbers after #, no., number or jersey only.
    Keys are those of athletes, guards and injuries; logins also names of machines; places are
    paths, beside the usual beginnings of paths.
    """

    names: Collection[str] = ()
    keys: Collection[str] = ()
    jerseys: Collection[str] = ()
    logins: Collection[str] = ()
    places: Collection[str] = ()


@dataclass(frozen=True, slots=True)
class WrittenIdentifier:
    """A forbidden word that was written: where, what kind of word, and the word."""

    place: str
    kind: str
    word: str

    def sentence(self) -> str:
        """Return where it stands and what to do."""
        return (
            f"{self.place}: the {self.kind} “{self.word}” stands in it, and may not be handed "
            "out. Take it out and make the document again."
        )


def check_written(
    name: str, data: bytes, not_in: ForbiddenWords, own_words: Collection[str] = ()
) -> None:
    """Refuse a file in which a forbidden word stands, or something that is not seen.

    `own_words` are those that the program writes of itself; alone they are no part of a name.

    Raises:
        IdentifierError: A word does.
        SeasonboardError: It has a hidden sheet, row, column or text.
    """
    identifiers = identifiers_in(written_texts(name, data), not_in, but_for=own_words)
    if identifiers:
        raise IdentifierError(
            f"{len(identifiers)} words that may not be handed out stand in the document, and "
            "it was not kept.",
            " ".join(one.sentence() for one in identifiers[:5]),
        )
    is_packed = data.startswith(b"%PDF")
    if unseen := () if is_packed else hidden_parts(name, _STYLE.sub(b"", data)):
        raise SeasonboardError("The document was not kept.", " ".join(unseen))


def identifiers_in(
    texts: Mapping[str, str], forbidden: ForbiddenWords, *, but_for: Collection[str] = ()
) -> tuple[WrittenIdentifier, ...]:
    """Return every forbidden word in the texts, by where it stands; empty where all is clean.

    Capitals and accents do not matter, and a word ends where letters and digits end: “Reyes” is
    found in `north_reyes.xlsx` and “Reyes-Tanaka”, not in “Reyesville”. In a PDF's packed bytes
    short words stand by chance and are not looked for.

    Args:
        texts: All that was written, by place (`written_texts` takes a file apart).
        forbidden: What may not stand in it.
        but_for: Words that the document uses itself; alone they are not taken for a part of a name.
    """
    sought = list(_sought(forbidden, ORDINARY.union(map(folded, but_for))))
    jerseys = {folded(one.strip()).lstrip("0"): one for one in forbidden.jerseys if one.strip()}
    found = []
    for place, text in texts.items():
        plain, is_packed = folded(unescape(text)), text.startswith("%PDF")
        words = _WORD.findall(plain)
        present, joined = set(words), f" {' '.join(words)} "
        least = _LETTERS_BY_CHANCE if is_packed else 1
        found += [
            WrittenIdentifier(place, kind, word)
            for kind, word, parts in sought
            if parts[0] in present
            and sum(map(len, parts)) >= least
            and (len(parts) == 1 or f" {' '.join(parts)} " in joined)
        ]
        numbers = () if is_packed else (one.lstrip("0") for one in _JERSEY.findall(plain))
        found += [WrittenIdentifier(place, "jersey", jerseys[n]) for n in numbers if n in jerseys]
        paths = [path for path, pattern in PATHS.items() if re.search(pattern, plain)]
        paths += [one for one in forbidden.places if folded(one) in plain]
        found += [WrittenIdentifier(place, "path", path) for path in paths]
    return tuple(found)


def _sought(
    forbidden: ForbiddenWords, spared: Collection[str]
) -> Iterator[tuple[str, str, list[str]]]:
    """Yield names, their parts that are no ordinary words, keys and logins: kind, word, parts."""
    for name in forbidden.names:
        parts = whole_words(name)
        if len(parts) > 1:
            yield "name", name, parts
        yield from (
            ("name", part, [part]) for part in parts if len(part) > 2 and part not in spared
        )
    for kind, words in (("key", forbidden.keys), ("login name", forbidden.logins)):
        for word in words:
            plain = folded(word.strip())
            least = _SHORTEST_NUMBER if plain.isdigit() else _SHORTEST_KEY
            if len(plain) >= least and plain not in spared and (parts := whole_words(plain)):
                yield kind, word, parts


def written_texts(name: str, data: bytes) -> dict[str, str]:
    """Return all text of a file by place: each part of a workbook, the streams of a PDF, HTML.

    The letters on a PDF's pages may be numbers of a font that is in it: look at the text that the
    pages were made from as well.
    """
    texts = {f"the name of {name}": name}
    if zipfile.is_zipfile(BytesIO(data)):
        with zipfile.ZipFile(BytesIO(data)) as parts:
            for part in parts.namelist():
                texts[f"{name}, {part}"] = f"{part}\n{_letters(parts.read(part))}"
    elif data.startswith(b"%PDF"):
        texts[name] = "\n".join(["%PDF", *map(_writing, _pieces(data))])
    else:
        texts[name] = _letters(data)
    return texts


def hidden_parts(name: str, data: bytes) -> tuple[str, ...]:
    """Return what of a file its reader would not see: hidden sheets, rows, columns, comments."""
    return tuple(
        f"{place} has {what}; take it out."
        for place, text in written_texts(name, data).items()
        for what, pattern in _UNSEEN.items()
        if re.search(pattern, text)
    )


def _letters(data: bytes) -> str:
    """Return bytes as text, also where two bytes make a letter as in a PDF's properties."""
    read = [data.decode("utf-8", "ignore")]
    if b"\0" in data:
        read += [data[start:].decode("utf-16-be", "ignore") for start in (0, 1)]
    return "\n".join(read)


def _writing(piece: bytes) -> str:
    """Return what is writing in a part of a PDF; of packed bytes only letters in a row.

    By chance a dozen stand in a row four times in a million bytes: too seldom for a path to begin.
    """
    try:
        return piece.decode("utf-8")
    except UnicodeDecodeError:
        plain = b"\n".join(_PLAIN.findall(piece)).decode("ascii")
        wide = "\n".join(run.decode("utf-16-be") for run in _WIDE.findall(piece))
        return f"{plain}\n{wide}"


def _pieces(data: bytes) -> Iterator[bytes]:
    yield data
    for stream in re.finditer(rb"stream\r?\n(.*?)endstream", data, re.DOTALL):
        try:
            yield zlib.decompress(stream.group(1))
        except zlib.error:
            continue


def folded(text: str) -> str:
    """Return text without capitals and accents, as names are looked for."""
    if text.isascii():
        return text.lower()
    apart = unicodedata.normalize("NFKD", text)
    return "".join(c for c in apart if not unicodedata.combining(c)).casefold()


def whole_words(text: str) -> list[str]:
    """Return the words of a text, without capitals and accents."""
    return _WORD.findall(folded(text))


@cache
def words_of_its_own() -> frozenset[str]:
    """Return every word of the program's own texts, plain: an athlete may be called like one."""
    return frozenset(
        word
        for source in _SOURCES
        for path in _texts(files("seasonboard").joinpath(source))
        for word in whole_words(path.read_text("utf-8"))
    )


def _texts(folder: Traversable) -> Iterable[Traversable]:
    for path in folder.iterdir():
        if path.is_dir():
            yield from _texts(path)
        elif path.name.endswith((".py", ".csv", ".css", ".typ")):
            yield path
