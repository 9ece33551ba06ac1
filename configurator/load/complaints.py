"""What the shapes complain of, in words for whoever wrote the file."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any, TypeVar, get_args

from pydantic import ValidationError

from configurator.faults import Fault, Faulty
from configurator.load.tables import Table
from configurator.load.text import MOST_FAULTS, Document, Path
from configurator.load.words import suggest
from configurator.units import Misread

Shape = TypeVar("Shape", bound=Table)

_AS_A_TABLE = "write it in curly brackets, {{ key = value }}, or under a heading in square ones"
_WORDS = {
    "missing": ("is missing", "add it"),
    "list_type": ("is not a list", "write it in square brackets; a table that may be repeated has two: [[rule]]"),
    "dict_type": ("is not a table", _AS_A_TABLE),
    "model_type": ("is not a table", _AS_A_TABLE),
    "int_type": ("is not a whole number", "write a number without quotes and without a point"),
    "too_short": ("is empty", "write at least one, or leave the key out"),
    "too_long": ("has too many entries", "split it"),
    "literal_error": ("is none of the words wanted here", "write one of {expected}"),
    "greater_than_equal": ("is too small", "write at least {ge}"),
    "less_than_equal": ("is too great", "write at most {le}"),
}


def shaped(document: Document, data: dict[str, Any], shape: type[Shape]) -> Shape:
    """The tables of a document, each knowing its place. Faulty with what is out of shape, up to a hundred faults."""
    try:
        tables = shape.model_validate(data)
    except ValidationError as trouble:
        raise Faulty(_faults(document, trouble, shape)) from None
    tables.stand_in(document)
    return tables


def _faults(document: Document, trouble: ValidationError, shape: type[Table]) -> Iterator[Fault]:
    for error in islice(trouble.errors(), MOST_FAULTS):
        path = tuple(part for part in error["loc"] if part != "[key]")
        key = ".".join(part for part in path if isinstance(part, str))
        wrong, way_out = _words(error, path, shape)
        yield Fault(document.place(path), key, wrong, way_out)


def _words(error: Any, path: Path, shape: type[Table]) -> tuple[str, str]:
    context = error.get("ctx", {})
    if isinstance(context.get("error"), Misread):
        return context["error"].wrong, context["error"].way_out
    if error["type"] == "extra_forbidden":
        return "is not a key that this table knows", suggest(str(path[-1]), _keys_at(path[:-1], shape), "keys")
    wrong, way_out = _WORDS.get(error["type"], (f"is not right: {error['msg'].lower()}", "see the keys of this table"))
    return wrong, way_out.format(**context)


def _keys_at(path: Path, shape: Any) -> list[str]:
    """The keys that the table at the end of a path may have."""
    for part in path:
        if isinstance(part, str) and isinstance(shape, type) and issubclass(shape, Table):
            shape = next((f.annotation for n, f in shape.model_fields.items() if (f.alias or n) == part), None)
        else:
            shape = get_args(shape)[-1]
        while not isinstance(shape, type) and get_args(shape) and type(None) in get_args(shape):
            shape = get_args(shape)[0]
    if isinstance(shape, type) and issubclass(shape, Table):
        return [field.alias or name for name, field in shape.model_fields.items()]
    return []
