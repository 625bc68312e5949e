"""Fields of stored columns: a form names the columns, the rest comes from their description."""

from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from seasonboard.ui.forms.form import FieldKind, FormField

_KINDS = {
    CellType.WORD: FieldKind.WORD,
    CellType.DATE: FieldKind.DAY,
    CellType.INSTANT: FieldKind.MOMENT,
}
_LISTS = {"roster": "athletes"}
"""Lists of the store whose name is not that of the table their keys stand in."""


def stored_fields(table: str, *columns: str | FormField) -> tuple[FormField, ...]:
    """Return the fields of columns of a table; those that are fields already stay as they are."""
    return tuple(one if isinstance(one, FormField) else stored_field(table, one) for one in columns)


def stored_field(table: str, name: str, finds: str = "") -> FormField:
    """Return the field of a stored column.

    Args:
        table: The table.
        name: The column.
        finds: The list from which a record of the table itself is chosen, by its key.
    """
    described = TABLES[table]
    column = described.column(name)
    target = column.refers[0] if column.refers else ""
    is_new = not finds and described.key == (name,)
    return FormField(
        name,
        "key" if is_new else column.form_label,
        FieldKind.LINE if finds or target else _KINDS.get(column.holds, FieldKind.TEXT),
        tuple(map(str, column.words)),
        finds=finds or _LISTS.get(target, target),
        is_required=column.required and not (is_new and described.key_made_of),
        table=table,
    )
