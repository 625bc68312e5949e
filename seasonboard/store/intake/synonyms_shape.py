"""The shape of a store's own file of spellings: which section holds what."""

from collections.abc import Mapping
from typing import Any

_LISTS_OF_LISTS = ("words", "headings")
_MONTHS = frozenset(map(str, range(1, 13)))
_PAIR = 2


def shape_fault(own: Mapping[str, Any]) -> str:
    """Return what in a file of spellings is of another kind than is read; empty when nothing is.

    Its sections have been looked at; each is a section.
    """
    for section, content in own.items():
        for name, value in content.items():
            where = f"[{section}] {name}"
            if section in _LISTS_OF_LISTS:
                inner = _section_fault(f"[{section}.{name}]", value)
            elif section == "units":
                inner = _units_fault(f"[units.{name}]", value)
            elif section == "plausible":
                is_range = isinstance(value, list) and len(value) == _PAIR
                is_range = is_range and all(_is_number(one) for one in value)
                inner = "" if is_range else f"{where} is not a least and a most, as [20, 500]."
            else:
                inner = _list_fault(where, value)
            if section == "months" and name not in _MONTHS:
                inner = f"{where}: months are 1 to 12."
            if inner:
                return inner
    return ""


def _section_fault(where: str, content: object) -> str:
    if not isinstance(content, dict):
        return f"{where} is not a section of words, each with a list of its spellings."
    faults = (_list_fault(f"{where} {name}", value) for name, value in content.items())
    return next(filter(None, faults), "")


def _units_fault(where: str, content: object) -> str:
    if not isinstance(content, dict) or not all(_is_number(one) for one in content.values()):
        return f"{where} is not a section of units, each with a number."
    return ""


def _list_fault(where: str, content: object) -> str:
    if not isinstance(content, list) or not all(isinstance(one, str) for one in content):
        return f'{where} is not a list of words in quotes, as ["lt", "left"].'
    return ""


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
