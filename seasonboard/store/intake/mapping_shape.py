"""The shape of a mapping's file: what is a word, a list of words, or a section, and where."""

from collections.abc import Mapping
from typing import Any

from seasonboard.regular_files import UnusableFileError

_WORDS = (
    *("table", "file", "layout", "title", "dates", "decimal", "time_zone"),
    *("time", "am", "pm", "blank", "skip_without"),
)
_SECTIONS = ("constants", "units", "stages", "sites")
_PLAIN = (str, int, float)


def check_shape(content: Mapping[str, Any]) -> None:
    """Refuse a mapping in which something is of another kind than is read.

    Raises:
        UnusableFileError: Something is; the text says where, what stands there, what is expected.
    """
    _check_list("questions", content.get("questions", []))
    sheets = content.get("sheet", [])
    if not isinstance(sheets, list):
        raise _other("sheet", sheets, "sections that each begin with [[sheet]]")
    for nth, sheet in enumerate(sheets, 1):
        where = f"[[sheet]] {nth}: "
        if not isinstance(sheet, dict):
            raise _other(f"{where}sheet", sheet, "a section that begins with [[sheet]]")
        _check_sheet(where, sheet)


def _check_sheet(where: str, sheet: Mapping[str, Any]) -> None:
    for name in _WORDS:
        if name in sheet and not isinstance(sheet[name], str):
            raise _other(f"{where}{name}", sheet[name], "a word in quotes")
    _check_list(f"{where}headings", sheet.get("headings", []))
    for name in _SECTIONS:
        _check_pairs(f"{where}{name}", sheet.get(name, {}))
    columns = _section(f"{where}columns", sheet.get("columns", {}))
    for name, heading in columns.items():
        if isinstance(heading, list):
            _check_list(f"{where}columns.{name}", heading)
        elif not isinstance(heading, _PLAIN):
            raise _other(f"{where}columns.{name}", heading, "a heading, or a list of them")
    for name, meant in _section(f"{where}values", sheet.get("values", {})).items():
        _check_pairs(f"{where}values.{name}", meant)


def _section(where: str, content: object) -> Mapping[str, Any]:
    if not isinstance(content, dict):
        raise _other(where, content, "a section of names with values")
    return content


def _check_pairs(where: str, content: object) -> None:
    for name, value in _section(where, content).items():
        if not isinstance(value, _PLAIN):
            raise _other(f"{where}.{name}", value, "one value")


def _check_list(where: str, content: object) -> None:
    if not isinstance(content, list) or not all(isinstance(one, _PLAIN) for one in content):
        raise _other(where, content, 'a list of words, such as ["Name", "Date"]')


def _other(where: str, content: object, expected: str) -> UnusableFileError:
    kinds = {dict: "a section", list: "a list", bool: "yes or no", int: "a number"}
    kind = kinds.get(type(content), "a number" if isinstance(content, float) else "one value")
    shown = f"{kind}" if isinstance(content, dict | list) else f"“{str(content)[:40]}”, {kind}"
    return UnusableFileError(f"{where} is {shown}; expected is {expected}.")
