"""The identifier scan: it finds names and paths, and does not take packed bytes for either."""

import numpy as np
import pytest

from seasonboard.disclosure.identifier_scan import (
    ForbiddenWords,
    IdentifierError,
    check_written,
)

NOT_IN = ForbiddenWords(
    names=("Anastasia Quimbleworth",),
    keys=("00417",),
    jerseys=("17",),
    logins=("quimble",),
    places=("/srv/seasons",),
)


def test_packed_bytes_are_not_taken_for_a_path_or_a_name():
    # 16 MB of chance: with letters of all kinds “C:\” would stand in them some fifty times.
    for seed in range(16):
        data = np.random.default_rng(seed).integers(0, 256, 1_000_000, dtype=np.uint8).tobytes()
        check_written("made.pdf", b"%PDF-1.7\nstream\n" + data + b"\nendstream", NOT_IN)


@pytest.mark.parametrize(
    "written",
    [rb"/Producer (C:\records\season.duckdb)", b"/Author (Anastasia Quimbleworth)",
     b"/Source (file:///srv/seasons/own.duckdb)"],
)  # fmt: skip
def test_a_path_or_a_name_in_a_pdfs_properties_is_found(written):
    with pytest.raises(IdentifierError):
        check_written("made.pdf", b"%PDF-1.7\n" + written + b"\n", NOT_IN)


def test_a_refusal_says_where_and_what_to_do():
    with pytest.raises(IdentifierError, match="stand in the document") as refusal:
        check_written("page.html", b"Quimbleworth", NOT_IN)
    assert "page.html: the name “quimbleworth” stands in it" in refusal.value.hint
    check_written("page.html", b"25", NOT_IN)
