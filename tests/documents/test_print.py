"""The PDF is tagged, says what it is, tells nothing of its maker, and shows text as it is.

pypdf reads its structure, pdftotext (poppler) its text, where that is installed.
"""

import io
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from seasonboard.documents.model import written
from seasonboard.documents.writers.pdf import FACES, as_pdf
from tests.documents.conftest import HOSTILE, printed_text, squeezed


@pytest.fixture(scope="module")
def printed(sheet):
    return as_pdf(sheet, "a4").data


def read(data):
    return pypdf.PdfReader(io.BytesIO(data))


def text_of(data, tmp_path):
    shown = printed_text(data, tmp_path)
    return squeezed(shown or " ".join(page.extract_text() for page in read(data).pages))


def test_it_is_tagged_and_says_its_title_and_language(printed, sheet):
    root = read(printed).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert read(printed).metadata.title == f"{sheet.title} · {sheet.of}"
    assert b"<pdfuaid:part>1</pdfuaid:part>" in printed


def structure(element):
    """Yield an element of the structure of a PDF and all below it."""
    element = element.get_object()
    yield element
    below = element.get("/K", [])
    for one in below if isinstance(below, list) else [below]:
        if not isinstance(one, int) and "/S" in one.get_object():
            yield from structure(one)


def test_each_row_of_a_table_is_headed_by_its_first_cell(printed, sheet):
    root = read(printed).trailer["/Root"]["/StructTreeRoot"]
    bodies = [e for e in structure(root["/K"][0]) if e["/S"] == "/TBody"]
    rows = [row.get_object()["/K"] for body in bodies for row in body["/K"]]
    shown = [t for t in sheet.tables() if t not in sheet.sheets]
    assert len(rows) == sum(len(table.rows) for table in shown)
    for first, *others in rows:
        assert first.get_object()["/S"] == "/TH"
        assert first.get_object()["/A"][0]["/Scope"] == "/Row"
        assert {cell.get_object()["/S"] for cell in others} <= {"/TD"}


def test_its_metadata_and_bytes_name_no_path_no_login_and_no_clock(printed):
    found = read(printed).metadata
    assert set(found) <= {"/Title", "/Creator", "/CreationDate", "/ModDate"}
    assert found["/CreationDate"].startswith("D:20261120000000")
    everything = printed.decode("latin-1")
    for word in (str(Path.home()), str(Path.cwd()), "/tmp/", "/home/"):
        assert word not in everything


def test_the_same_document_gives_the_same_bytes_in_its_own_letters(printed, sheet):
    assert as_pdf(sheet, "a4").data == printed
    faces = {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in read(printed).pages
        for font in page["/Resources"]["/Font"].values()
    }
    names = tuple(face.replace(" ", "") for face in FACES)
    assert faces
    assert all(face.startswith(names) for face in faces), faces


@pytest.mark.long
@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_it_has_the_size_of_the_paper_and_page_numbers(sheet, paper, size):
    found = read(as_pdf(sheet, paper).data)
    assert [round(float(v)) for v in found.pages[0].mediabox[2:]] == list(size)
    count = len(found.pages)
    assert 3 <= count <= 7
    for number, page in enumerate(found.pages, 1):
        assert squeezed(f"{number} / {count}") in squeezed(page.extract_text())


def test_every_sentence_and_cell_of_the_document_is_in_it(printed, sheet, tmp_path):
    found = text_of(printed, tmp_path)
    assert squeezed(sheet.lead) in found
    shown = [t for t in sheet.tables() if t not in sheet.sheets]
    assert len(shown) > 6
    for table in shown:
        for row in table.rows:
            for n, cell in enumerate(row):
                if n == table.marks:
                    continue
                for word in written(cell, table.columns[n].form).split():
                    assert squeezed(word) in found, (table.name, word)


def test_hostile_text_is_text(hostile, tmp_path):
    made = as_pdf(hostile, "a4")
    assert made.summary == ""
    found = text_of(made.data, tmp_path)
    for text in HOSTILE:
        assert squeezed(text) in found, text
    assert "/JavaScript" not in made.data.decode("latin-1")


def test_a_letter_that_no_type_has_is_told(sheet):
    nobody_s = "\U0010fffd"  # the last of those for private use: no type has it
    made = as_pdf(replace(sheet, lead=f"Lee {nobody_s}"))
    assert made.data.startswith(b"%PDF")
    assert "No type on this machine has" in made.summary
    assert "10fffd" in made.summary
    assert read(made.data).trailer["/Root"]["/MarkInfo"]["/Marked"]
