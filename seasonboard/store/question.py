"""One question put to the store: its SQL, and what its header says of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class SqlQuestion:
    """One question of the catalogue; `params` and `columns` map names to DuckDB types.

    In `sql` the lists that the header names stand written out. `works_on` names the working tables
    that it needs, if any; `named` are the parameters that the SQL itself takes, the rest are those
    of the working tables. `header` holds whatever its header says in words.
    """

    name: str
    asks: str
    grain: str
    params: Mapping[str, str]
    columns: Mapping[str, str]
    sql: str
    works_on: str = ""
    named: frozenset[str] = frozenset()
    header: Mapping[str, str] = field(default_factory=dict)
