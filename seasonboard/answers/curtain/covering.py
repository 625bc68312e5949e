"""The curtain: what is read of a store with every athlete as a code, and nothing written freely.

It stands between the store and the answers, so that no answer, and nothing that shows, copies or
saves one, ever holds what is covered.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import PurePath

import polars as pl

from seasonboard.answers.curtain.columns import A_STORE, BY_PERSON, COVERED, KEYS, MIXED, cover_of
from seasonboard.answers.curtain.pages import cut
from seasonboard.answers.reader import Reader
from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked, PageFound
from seasonboard.stored_column import Cover

LEAST = 4
"""Letters of a code; more where two would be the same."""
_MOST = 16
_TELLING = 4
"""Names and keys with fewer letters are not looked for inside other text."""
_ATHLETE = "athlete"


@dataclass(frozen=True, slots=True)
class Codes:
    """The code of every key, by what it is a key of.

    `names` and keys, and the `words` that names are made of, are looked for inside other text.
    """

    of: Mapping[str, pl.DataFrame]
    names: pl.Series
    words: pl.Series

    def column(self, name: str, kind: str) -> pl.Expr:
        """Return a column of keys as codes; a key that is not known is covered."""
        known = self.of.get(kind)
        column = pl.col(name)
        if known is None:
            return pl.when(column.is_not_null()).then(pl.lit(COVERED)).alias(name)
        coded = column.replace_strict(
            known["key"], known["code"], default=pl.lit(COVERED), return_dtype=pl.String
        )
        return pl.when(column.is_not_null()).then(coded).alias(name)

    def lists(self, name: str, kind: str) -> pl.Expr:
        """Return a column of lists of keys as lists of codes."""
        return pl.col(name).list.eval(self.column("", kind))

    def code_of(self, key: str) -> str:
        """Return an athlete's code; what is no athlete's key stays as it is."""
        return self._other("key", key, "code") or key

    def key_of(self, code: str) -> str:
        """Return the athlete's key that a code stands for; what is no code stays as it is."""
        bare = code.strip().removeprefix(f"{_ATHLETE} ").upper()
        return self._other("code", bare, "key") or code

    def _other(self, given: str, word: str, wanted: str) -> str | None:
        known = self.of.get(_ATHLETE)
        found = [] if known is None else known.filter(pl.col(given) == word)[wanted].to_list()
        return next(iter(found), None)


def shortened(letters: pl.DataFrame) -> pl.DataFrame:
    """Return the shortest codes, of at least four letters, that no two keys of a kind share.

    Args:
        letters: `kind`, `key` and `letters`, each key's letters in full.

    Returns:
        `kind`, `key`, `code`. Where two keys would share a code both have a longer one, so that a
        code once shown never comes to stand for somebody else.
    """
    code = pl.col("letters")
    alone = [
        pl.when(pl.len().over("kind", code.str.slice(0, n)) == 1).then(n)
        for n in range(LEAST, _MOST)
    ]
    length = pl.coalesce(*alone, pl.lit(_MOST))
    return letters.select("kind", "key", code=code.str.slice(0, length))


class CurtainedReader:
    """A reader that gives what another one reads, with the persons in it covered."""

    def __init__(self, reader: Reader, secret: Callable[[], str]) -> None:
        """Cover what `reader` gives; `secret` is what the codes are made with, asked once."""
        self._reader = reader
        self._secret = secret
        self._codes: Codes | None = None

    @property
    def codes(self) -> Codes:
        """Return the codes; they are read when first needed."""
        return self._codes or self._read_codes()

    def _read_codes(self) -> Codes:
        short = shortened(self._reader.read("curtain/codes", secret=self._secret()))
        known = {str(kind): rows for (kind,), rows in short.group_by("kind")}
        names = short.filter(pl.col("kind").is_in([_ATHLETE, "name"]))["key"].unique()
        words = short.filter(pl.col("kind") == "name").select(_words("key").explode()).to_series()
        self._codes = Codes(
            known, names.filter(names.str.len_chars() >= _TELLING), words.drop_nulls().unique()
        )
        return self._codes

    def meant(self, athlete: str, *, is_down: bool) -> str:
        """Return the athlete meant by a key or a code: as a code while it is down, else as a key.

        What was opened before the curtain was moved still names its athlete the other way.
        """
        if is_down:
            return self.codes.code_of(athlete)
        return athlete if self._codes is None else self._codes.key_of(athlete)

    @staticmethod
    def store_label(label: str) -> str:
        """Return what is open without the file's own name, which was chosen freely."""
        return A_STORE if PurePath(label).suffix or PurePath(label).anchor else label

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Return the rows of one question, covered."""
        with _without_details():
            return self._covered(name, self._reader.read(name, **self._with_real_key(params)))

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Return the rows of several questions, covered."""
        with _without_details():
            frames = self._reader.read_each([(name, self._with_real_key(p)) for name, p in asked])
            pairs = zip(asked, frames, strict=True)
            return tuple(self._covered(name, frame) for (name, _), frame in pairs)

    def count_each(self, asked: Sequence[tuple[str, Mapping[str, object]]]) -> tuple[int, ...]:
        """Return how many rows each of several questions has: there is nothing to cover."""
        with _without_details():
            return self._reader.count_each([(name, self._with_real_key(p)) for name, p in asked])

    def read_page(self, name: str, page: PageAsked, /, **params: object) -> PageFound:
        """Return one page, found and sorted by what is shown, never by what is covered."""
        return cut(self.read(name, **params), page)

    def _with_real_key(self, params: Mapping[str, object]) -> dict[str, object]:
        athlete = params.get(_ATHLETE)
        real = {_ATHLETE: self.codes.key_of(athlete)} if isinstance(athlete, str) else {}
        return {**params, **real}

    def _covered(self, name: str, frame: pl.DataFrame) -> pl.DataFrame:
        """Cover a frame; keys that came into the store meanwhile are read once more."""
        if name.startswith("scope/"):
            return frame
        found = cover(name, frame, self.codes)
        keys = [column for column in found.columns if column in KEYS and column in frame.columns]
        text = [column for column in keys if found.schema[column] == pl.String]
        if text and found.select(pl.any_horizontal((pl.col(text) == COVERED).any())).item():
            found = cover(name, frame, self._read_codes())
        return found


def cover(question: str, frame: pl.DataFrame, codes: Codes) -> pl.DataFrame:
    """Return the rows of a question with every text covered that may name a person."""
    mixed = {key: (by, kinds) for (by, key), kinds in MIXED.items() if by in frame.columns}
    made = []
    for name, kind in frame.schema.items():
        is_text = kind == pl.String
        is_list = kind == pl.List(pl.String)
        if name in mixed:
            made.append(_mixed(name, *mixed[name], codes))
        elif (cover := cover_of(question, name)) is Cover.CODED and (is_text or is_list):
            coded = codes.lists if is_list else codes.column
            made.append(coded(name, KEYS[name]))
        elif cover in {Cover.SHOWN, Cover.SEARCHED}:
            is_searched = is_text and cover is Cover.SEARCHED
            made.append(_searched(name, codes) if is_searched else pl.col(name))
        elif is_text:
            made.append(_free(name, cover, frame, codes))
        elif kind.is_nested() and not _is_figures(kind):
            made.append(pl.lit(None, dtype=kind).alias(name))
    order = [name for name in BY_PERSON.get(question, ()) if name in frame.columns]
    covered = frame.with_columns(made)
    return covered.sort(order, maintain_order=True, nulls_last=True) if order else covered


def _is_figures(kind: pl.DataType) -> bool:
    return isinstance(kind, pl.List) and kind.inner != pl.String and not kind.inner.is_nested()


def _free(name: str, cover: Cover, frame: pl.DataFrame, codes: Codes) -> pl.Expr:
    """Return free text covered: an athlete's name as the code, labels and jerseys as nothing."""
    if name == "name" and _ATHLETE in frame.columns:
        coded = pl.lit(f"{_ATHLETE} ") + codes.column(_ATHLETE, _ATHLETE)
        return pl.when(pl.col(name).is_not_null()).then(coded).alias(name)
    if name == "reason" and "what" in frame.columns:
        typed = (pl.col("what") == "offer") & pl.col(name).is_not_null()
        return pl.when(typed).then(pl.lit(COVERED)).otherwise(name).alias(name)
    hidden = pl.lit(None if cover is Cover.LEFT_OUT else COVERED, dtype=pl.String)
    return pl.when(pl.col(name).is_not_null()).then(hidden).alias(name)


def _mixed(name: str, by: str, kinds: Mapping[str, str], codes: Codes) -> pl.Expr:
    """Return keys as codes where they are a person's, by what another column says."""
    shown: pl.Expr = _searched(name, codes)
    for word, kind in kinds.items():
        shown = pl.when(pl.col(by) == word).then(codes.column(name, kind)).otherwise(shown)
    return shown.alias(name)


def _searched(name: str, codes: Codes) -> pl.Expr:
    """Return text, covered where it holds an athlete's name or key, or a word of a name."""
    if codes.names.is_empty():
        return pl.col(name)
    whole = pl.col(name).str.contains_any(codes.names.implode(), ascii_case_insensitive=True)
    in_part = _words(name).list.eval(pl.element().is_in(codes.words.implode())).list.any()
    holds = whole | in_part
    return pl.when(holds).then(pl.lit(COVERED)).otherwise(pl.col(name)).alias(name)


def _words(name: str) -> pl.Expr:
    """Return the words of a text that are long enough to be a name."""
    return pl.col(name).str.to_lowercase().str.extract_all(r"\p{L}{3,}")


@contextmanager
def _without_details() -> Iterator[None]:
    """Tell a store's refusal without its details: the store may quote what it holds."""
    try:
        yield
    except StoreError as error:
        if not error.hint:
            raise
        hint = "The details are behind the curtain: lift it with c to read them."
        raise type(error)(error.what, hint) from None
