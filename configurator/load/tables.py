"""What all tables of a shop's files have in common: no key too many, and each knows where it was written."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, PrivateAttr

from configurator.faults import Place
from configurator.load.text import Document, Path


class Table(BaseModel):
    """Any table of a shop's file."""

    model_config = ConfigDict(extra="forbid", populate_by_name=False)
    _document: Document = PrivateAttr()
    _path: Path = PrivateAttr(default=())

    def stand_in(self, document: Document, path: Path = ()) -> None:
        """Tell this table, and all that it holds, where it was written."""
        self._document, self._path = document, path
        for name, field in type(self).model_fields.items():
            _place_inside(getattr(self, name), document, (*path, field.alias or name))

    def at(self, *key: str | int) -> Place:
        """The place of one of the table's keys, or of the table itself."""
        return self._document.place((*self._path, *key))


def _place_inside(value: Any, document: Document, path: Path) -> None:
    if isinstance(value, Table):
        value.stand_in(document, path)
    elif isinstance(value, (list, dict)):
        for key, inner in enumerate(value) if isinstance(value, list) else value.items():
            _place_inside(inner, document, (*path, key))
