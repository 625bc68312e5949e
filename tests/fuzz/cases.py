"""One case after the other: which good file, made wrong in which way, loaded how."""

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from random import Random

from seasonboard.store.bundles.archive import MANIFEST, seal
from tests.fuzz.good_files import (
    FOREIGN,
    MAPPING,
    SETTINGS,
    SPELLINGS,
    TABLES,
    Rows,
    as_csv,
    as_parquet,
    as_workbook,
)
from tests.fuzz.mutations import by_bytes, by_cells, by_structure, in_package, in_words

KINDS = ("csv", "foreign csv", "xlsx", "parquet", "mapping", "spellings", "bundle", "settings")
WAYS = ("bytes", "cells", "structure")
_COMMENT = b"seasonboard bundle sha256 " + b"0" * 64


@dataclass(frozen=True)
class Case:
    """Files to lay down, those of them that are named, and how they are loaded."""

    name: str
    kind: str
    files: Mapping[str, bytes]
    named: tuple[str, ...]
    options: tuple[str, ...]
    has_store: bool


def case_of(number: int, chance: Random, bundle: bytes) -> Case:
    """Return the case of a number: kinds and ways take turns, all else is chance."""
    kind, way = KINDS[number % len(KINDS)], WAYS[number // len(KINDS) % len(WAYS)]
    files, named = _files(kind, way, chance, bundle)
    options = []
    if kind != "bundle" and chance.random() < 0.4:
        options.append("--keep-good")
    if kind == "bundle":
        options += ["--keep", chance.choice(["mine", "theirs"])]
    for option in ("--accept-likely", "--dates=dmy", "--decimal=comma"):
        if chance.random() < 0.15:
            options.append(option)
    has_store = kind in {"foreign csv", "mapping"} or chance.random() < 0.8
    return Case(f"{number} {kind} by {way}", kind, files, named, tuple(options), has_store)


def _files(
    kind: str, way: str, chance: Random, bundle: bytes
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    log = FOREIGN["injury log"]
    if kind == "settings":
        return {"settings.toml": in_words(SETTINGS, chance, way)}, ()
    if kind == "mapping":
        mapping = in_words(MAPPING, chance, way)
        files = {"season.duckdb.mappings/club.toml": mapping, "injury log.csv": as_csv(log, chance)}
        return files, ("injury log.csv",)
    if kind == "spellings":
        files = {"season.duckdb.synonyms.toml": in_words(SPELLINGS, chance, way)}
        return files | {"roster.csv": as_csv(TABLES["roster"], chance)}, ("roster.csv",)
    if kind == "bundle":
        return {"in.bundle": _bundle(bundle, way, chance)}, ("in.bundle",)
    tables = (
        FOREIGN if kind == "foreign csv" or (kind == "xlsx" and chance.random() < 0.5) else TABLES
    )
    name = chance.choice(sorted(tables))
    rows = _rows(tables[name], way, chance)
    if kind == "xlsx":
        sheets = {name: rows}
        if chance.random() < 0.3:
            other = chance.choice(sorted(tables))
            sheets[other] = tables[other]
        data = as_workbook(sheets, chance)
        if way == "bytes":
            data = (by_bytes if chance.random() < 0.5 else in_package)(data, chance)
        return {f"{name}.xlsx": data}, (f"{name}.xlsx",)
    ending, write = ("parquet", as_parquet) if kind == "parquet" else ("csv", as_csv)
    data = write(rows, chance)
    data = by_bytes(data, chance) if way == "bytes" else data
    return {f"{name}.{ending}": data}, (f"{name}.{ending}",)


def _rows(rows: Rows, way: str, chance: Random) -> Rows:
    if way == "bytes":
        return rows
    return by_cells(rows, chance) if way == "cells" else by_structure(rows, chance)


def _bundle(data: bytes, way: str, chance: Random) -> bytes:
    """Make a bundle wrong: any byte; a part under a true seal; or its list of parts."""
    if way == "bytes":
        return by_bytes(data, chance)
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    name = chance.choice(sorted(parts.keys() - {MANIFEST}))
    listing = json.loads(parts[MANIFEST])
    if way == "cells":
        parts[name] = by_bytes(parts[name], chance)
        for one in listing["parts"]:
            if one["name"] == name:
                mark = hashlib.sha256(parts[name]).hexdigest()
                one.update(size=len(parts[name]), sha256=mark)
    else:
        values = (0, -1, 1 << 40, "x", None, [], {}, True, 2.5)
        target = listing if chance.random() < 0.5 else chance.choice(listing["parts"])
        target[chance.choice(sorted(target))] = chance.choice(values)
    parts[MANIFEST] = (json.dumps(listing, indent=1, sort_keys=True) + "\n").encode()
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as package:
        for one, content in parts.items():
            package.writestr(zipfile.ZipInfo(one), content)
        package.comment = _COMMENT
    return seal(made.getvalue())
