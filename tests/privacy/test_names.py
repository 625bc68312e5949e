"""No person in a file's name, properties, text or hidden parts."""

from io import BytesIO

import pytest
import xlsxwriter

from seasonboard.disclosure.identifier_scan import (
    ForbiddenWords,
    hidden_parts,
    identifiers_in,
    written_texts,
)
from seasonboard.saving.files import named

ROSTER = ForbiddenWords(
    names=("Anastasia Quimbleworth", "Bo Reyes-Tanaka", "May Özdemir"),
    keys=("00417", "00420"),
    jerseys=("17", "04"),
    logins=("aquimble",),
    places=("/srv/seasons/north.duckdb",),
)


def words(text: str, place: str = "page 1") -> list[str]:
    return [found.word for found in identifiers_in({place: text}, ROSTER)]


def test_a_file_is_called_after_client_kind_and_date():
    day = "2026-11-14"
    assert named("North State", "leave-behind", day, ending=".pdf") == (
        "North-State_leave-behind_2026-11-14.pdf"
    )
    assert named("../a/b\\c", "pitch", day, ending=".html") == "a-b-c_pitch_2026-11-14.html"
    assert named("", "pitch", day, ending=".xlsx") == "pitch_2026-11-14.xlsx"
    assert words(named("North", "pitch", day, ending=".xlsx"), "the file's name") == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Anastasia Quimbleworth was hurt", "Anastasia Quimbleworth"),
        ("north_quimbleworth_report.xlsx", "quimbleworth"),
        ("QUIMBLEWORTH, A.", "quimbleworth"),
        ("Reyes and others", "reyes"),
        ("M. Ozdemir", "ozdemir"),
        ("M. O\u0308zdemir", "ozdemir"),
        ("&Ouml;zdemir", "ozdemir"),
        ("key 00417.", "00417"),
        ("jersey 17", "17"),
        ("#4 keeper", "04"),
        ("No. 17", "17"),
        ("made by aquimble", "aquimble"),
        ("from /home/maker/north.csv", "/home/"),
        ("from C:\\Users\\maker", "C:\\"),
        ("see /srv/seasons/north.duckdb", "/srv/seasons/north.duckdb"),
    ],
)
def test_is_found(text, found):
    assert found in words(text)


@pytest.mark.parametrize(
    "text",
    [
        "17 injuries in 412 exposures",
        "100417 exposures",
        "in May 2026",
        "Reyesville is a town",
        "boring",
        "#170000",
        "#17a2b8",
        "3:17 per 1000",
        "https://example.org/1",
    ],
)
def test_is_no_person(text):
    assert words(text) == []


def test_words_of_the_document_itself_are_spared_alone_but_not_as_a_name():
    texts = {"title": "Reyes College, and Bo Reyes-Tanaka"}
    found = identifiers_in(texts, ROSTER, but_for=["Reyes"])
    assert [each.word for each in found] == ["Bo Reyes-Tanaka", "tanaka"]


def workbook(*, creator: str, hidden: bool) -> bytes:
    out = BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.set_properties({"author": creator, "title": "North"})
    sheet = book.add_worksheet("report")
    sheet.write_string(0, 0, "25 injuries")
    if hidden:
        data = book.add_worksheet("data")
        data.write_string(0, 0, "00417")
        data.hide()
        sheet.set_column(3, 3, None, None, {"hidden": True})
        sheet.set_footer("&L/home/maker/north.csv")
    book.close()
    return out.getvalue()


def test_a_workbook_is_taken_apart():
    data = workbook(creator="Anastasia Quimbleworth", hidden=True)
    found = identifiers_in(written_texts("north.xlsx", data), ROSTER)
    places = {each.place: each.word for each in found}
    assert places["north.xlsx, docProps/core.xml"] in {"quimbleworth", "anastasia"}
    assert places["north.xlsx, xl/sharedStrings.xml"] == "00417"
    assert places["north.xlsx, xl/worksheets/sheet1.xml"] == "/home/"
    assert any("hidden sheet" in said for said in hidden_parts("north.xlsx", data))
    assert any("hidden row or column" in said for said in hidden_parts("north.xlsx", data))


def test_a_clean_workbook_passes():
    data = workbook(creator="seasonboard", hidden=False)
    assert identifiers_in(written_texts("North_pitch_2026-11-14.xlsx", data), ROSTER) == ()
    assert hidden_parts("north.xlsx", data) == ()


def test_a_pdfs_properties_and_packed_streams_are_read():
    import zlib

    packed = zlib.compress(b"<rdf>Bo Reyes-Tanaka</rdf>")
    wide = "Anastasia Quimbleworth".encode("utf-16-be")
    data = b"%PDF-1.7\n/Author (\xfe\xff" + wide + b")\nstream\n" + packed + b"\nendstream"
    found = {each.word for each in identifiers_in(written_texts("a.pdf", data), ROSTER)}
    assert {"Bo Reyes-Tanaka", "Anastasia Quimbleworth"} <= found


def test_a_page_with_a_comment_or_hidden_text_is_told():
    page = b"<html><!-- by me --><p style='display: none'>x</p></html>"
    assert len(hidden_parts("a.html", page)) == 2
