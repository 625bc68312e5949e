"""A bundle that is not as it was written is refused with words, and the store is as it was."""

import hashlib
import io
import json
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import polars as pl
import pytest

from seasonboard.errors import IntakeError
from seasonboard.load_options import LoadOptions
from seasonboard.store.bundles import archive
from seasonboard.store.bundles.archive import MANIFEST, seal, unpack
from seasonboard.store.bundles.packing import packed_bundle
from seasonboard.store.catalogue import migrations
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.store import Store
from tests.bundles.pair import TEAMS, Place
from tests.reused import ReusedStore

COMMENT = b"seasonboard bundle sha256 " + b"0" * 64
Parts = dict[str, bytes]


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    with ReusedStore() as store:
        Place(store, tmp_path_factory.mktemp("good") / "maker").load(**TEAMS)
        return packed_bundle(store, 0)[0]


@pytest.fixture(scope="module")
def empty() -> Iterator[Store]:
    with ReusedStore() as store:
        yield store


@pytest.fixture
def refusal(empty: Store, tmp_path: Path) -> Callable[[bytes], str]:
    def refused(data: bytes) -> str:
        path = tmp_path / "in.bundle"
        path.write_bytes(data)
        with pytest.raises(IntakeError) as error:
            plan_load(empty, [path], LoadOptions(conflicts="theirs"))
        assert str(error.value).startswith("Nothing was loaded: in.bundle: ")
        return str(error.value)

    return refused


def parts_of(data: bytes) -> Parts:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return {name: package.read(name) for name in package.namelist()}


def zipped(parts: Parts, *more: tuple[str, bytes], packed: tuple[str, ...] = ()) -> bytes:
    """Return a bundle of these parts under a true seal, as someone who knows how could make it."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as package:
        for name, data in (*parts.items(), *more):
            how = zipfile.ZIP_DEFLATED if name in packed else zipfile.ZIP_STORED
            package.writestr(zipfile.ZipInfo(name), data, compress_type=how)
        package.comment = COMMENT
    return seal(made.getvalue())


def told(parts: Parts, /, **changes: object) -> Parts:
    """Return the parts with a manifest that says something else."""
    manifest = {**json.loads(parts[MANIFEST]), **changes}
    return {**parts, MANIFEST: (json.dumps(manifest, indent=1, sort_keys=True) + "\n").encode()}


def listed(parts: Parts, name: str, /, **changes: object) -> Parts:
    """Return the parts with a manifest that says something else of one part."""
    listing = json.loads(parts[MANIFEST])["parts"]
    return told(
        parts, parts=[{**one, **changes} if one["name"] == name else one for one in listing]
    )


def with_frame(parts: Parts, name: str, frame: pl.DataFrame) -> Parts:
    """Return the parts with another frame in one of them, and a manifest that agrees."""
    made = io.BytesIO()
    frame.write_parquet(made)
    data = made.getvalue()
    mark = hashlib.sha256(data).hexdigest()
    return listed({**parts, name: data}, name, rows=frame.height, size=len(data), sha256=mark)


def test_a_change_of_any_byte_is_seen(good):
    for place in range(len(good)):
        changed = bytearray(good)
        changed[place] ^= 1 << place % 8
        with pytest.raises(
            IntakeError, match=r"in\.bundle: (is not a bundle|is cut off, was chan)"
        ):
            unpack(bytes(changed), "in.bundle")


def test_a_file_that_is_cut_off_or_has_more_is_seen(good):
    for end in range(0, len(good), 7):
        with pytest.raises(IntakeError):
            unpack(good[:end], "in.bundle")
    for more in (b"\0", good[-90:], good):
        with pytest.raises(IntakeError):
            unpack(good + more, "in.bundle")
    with pytest.raises(IntakeError):
        unpack(b"#!/bin/sh\n" + good, "in.bundle")


def test_the_same_content_makes_the_same_bytes(good):
    manifest, parts = unpack(good, "in.bundle")
    assert archive.pack(manifest, parts) == good
    assert zipfile.ZipFile(io.BytesIO(good)).testzip() is None


@pytest.mark.parametrize(
    "data",
    [b"", b"team,department\n", b"PK\x03\x04", b"PK\x05\x06" + b"\0" * 18, b"SQLite format 3"],
)
def test_another_kind_of_file_is_told(refusal, data):
    assert "bundle" in refusal(data)


def test_another_kind_of_zip_is_told(refusal, good):
    parts = parts_of(good)
    assert "no list of its parts" in refusal(zipped({"xl/workbook.xml": b"<a/>"}))
    assert "not a bundle of seasonboard" in refusal(zipped(told(parts, format="other")))
    assert "not a bundle of seasonboard" in refusal(zipped({**parts, MANIFEST: b"[1]"}))
    for text in (b"", b"{", b"[" * 60_000, b"\xff\xfe"):
        assert "list of its parts" in refusal(zipped({**parts, MANIFEST: text}))


def test_a_bundle_of_a_newer_version_asks_for_an_update(refusal, good):
    parts = parts_of(good)
    said = refusal(zipped(told(parts, version=2, added="x")))
    assert "newer seasonboard (format 2; this one knows 1). Update seasonboard." in said
    newest = migrations()[-1][0]
    said = refusal(zipped(told(parts, schema=newest + 1)))
    assert f"(schema {newest + 1}; this one knows {newest})" in said


@pytest.mark.parametrize(
    "changes",
    [
        {"version": "1"}, {"version": True}, {"version": 0}, {"schema": None},
        {"made_at": "yesterday"}, {"made_at": 7}, {"since": -1}, {"store_id": 5}, {"parts": []},
        {"parts": [1]}, {"parts": None}, {"added": 1},
    ],
)  # fmt: skip
def test_a_manifest_that_no_bundle_has_is_refused(refusal, good, changes):
    assert "list of its parts that no bundle has" in refusal(
        zipped(told(parts_of(good), **changes))
    )


@pytest.mark.parametrize("name", [None, 7, [], {}])
def test_a_part_whose_name_is_no_text_is_refused(refusal, good, name):
    said = refusal(zipped(listed(parts_of(good), "tables/teams.parquet", name=name)))
    assert "list of its parts that no bundle has" in said


def test_names_that_stand_twice_are_refused(refusal, good):
    parts = parts_of(good)
    for name in (MANIFEST, "tables/teams.parquet"):
        with pytest.warns(UserWarning, match="Duplicate name"):
            data = zipped(parts, (name, parts[name]))
        assert f"holds “{name}” twice" in refusal(data)


@pytest.mark.parametrize(
    "name", ["../x", "/etc/x", "tables/../../x", "C:\\x", "tables\\teams.parquet", "a\0b"]
)
def test_names_of_places_elsewhere_are_refused(refusal, good, name):
    parts = parts_of(good)
    data = zipped(parts, ("x" * len(name), b"1")).replace(b"x" * len(name), name.encode())
    assert "names a place outside it" in refusal(seal(data))


def test_parts_that_the_manifest_does_not_name_are_refused(refusal, good):
    parts = parts_of(good)
    assert "holds “extra.txt”" in refusal(zipped(parts, ("extra.txt", b"1")))
    said = refusal(zipped(parts, ("a\x1b]52;c;x\x07\u202eb", b"1")))
    assert "holds “a]52;c;xb”" in said
    less = {name: data for name, data in parts.items() if name != "tables/teams.parquet"}
    assert "lacks “tables/teams.parquet”" in refusal(zipped(less))


def test_what_would_unpack_to_more_is_refused_before_it_is_unpacked(refusal, good):
    name = "tables/teams.parquet"
    bomb = {**parts_of(good), name: b"\0" * 50_000_000}
    data = zipped(bomb, packed=(name,))
    assert len(data) < 200_000
    assert f"holds “{name}” packed" in refusal(data)
    assert "bytes; its list of parts says" in refusal(zipped({**parts_of(good), name: b"\0" * 9}))
    long = {**parts_of(good), MANIFEST: b" " * (archive.MOST_MANIFEST + 1)}
    assert "too long" in refusal(zipped(long))


def test_a_part_that_differs_from_its_hash_is_refused(refusal, good):
    name = "tables/teams.parquet"
    parts = parts_of(good)
    other = parts[name][:-9] + b"x" + parts[name][-8:]
    assert f"{name} differs" in refusal(zipped({**parts, name: other}))
    broken = b"PAR1" + b"x" * 50 + b"PAR1"
    mark = hashlib.sha256(broken).hexdigest()
    parts = listed({**parts, name: broken}, name, size=len(broken), sha256=mark)
    assert "cannot be read as Parquet" in refusal(zipped(parts))


def test_other_columns_or_counts_than_told_are_refused(refusal, good):
    name = "tables/teams.parquet"
    parts = parts_of(good)
    teams = pl.read_parquet(io.BytesIO(parts[name]))
    for frame in (teams.drop("sex"), teams.with_columns(x=1), teams.with_columns(sport=1)):
        assert "other columns or rows" in refusal(zipped(with_frame(parts, name, frame)))
    assert "other columns or rows" in refusal(zipped(listed(parts, name, rows=1)))


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("sex", "boys", "is not one of: women, men, mixed."),
        ("department", "D7", "is not a known department"),
        ("sport", None, "is empty"),
    ],
)
def test_rows_are_checked_as_those_of_any_file(empty, good, tmp_path, column, value, said):
    name = "tables/teams.parquet"
    parts = parts_of(good)
    teams = pl.read_parquet(io.BytesIO(parts[name]))
    wrong = teams.with_columns(pl.lit(value, pl.String).alias(column))
    path = tmp_path / "in.bundle"
    path.write_bytes(zipped(with_frame(parts, name, wrong)))
    with pytest.raises(IntakeError) as refused:
        plan_load(empty, [path])
    assert said in refused.value.problems[0].sentence()
    assert refused.value.problems[0].file == "in.bundle › teams"


def test_steering_characters_in_a_bundle_are_taken_out(empty, good, tmp_path):
    name = "tables/teams.parquet"
    parts = parts_of(good)
    teams = pl.read_parquet(io.BytesIO(parts[name])).with_columns(
        sport=pl.lit("ju\x1b[31m\u202edo")
    )
    path = tmp_path / "in.bundle"
    path.write_bytes(zipped(with_frame(parts, name, teams)))
    plan = plan_load(empty, [path])
    assert plan.rows["teams"]["sport"].unique().to_list() == ["ju[31mdo"]
    assert "control or direction characters" in plan.notes[0].sentence()
