"""Line and column of every key and table of a TOML text, counted from 1.

The text is known to be TOML by now; this parser is used for positions only, never for values.
"""

from __future__ import annotations

import tomllib

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

Path = tuple[str | int, ...]
Places = dict[Path, tuple[int, int]]

_PARSER = Parser(Language(tree_sitter_toml.language()))


def places_in(text: str) -> Places:
    """Where each path of the document stands: `("choice", 3, "option", 0, "id")` and the tables on the way to it."""
    reading = _Reading(text.encode("utf-8"))
    reading.document()
    return reading.places


class _Reading:
    """One walk over the tree; `counts` numbers the elements of each array of tables."""

    def __init__(self, data: bytes) -> None:
        self.lines = data.split(b"\n")
        self.root = _PARSER.parse(data).root_node
        self.places: Places = {}
        self.counts: dict[Path, int] = {}

    def document(self) -> None:
        for node in self.root.named_children:
            if node.type == "pair":
                self.pair(node, ())
            elif node.type in ("table", "table_array_element"):
                self.table(node)

    def table(self, node: Node) -> None:
        head, *rest = node.named_children
        path = self.header(_keys(head), node.type == "table_array_element")
        self.note(path, node)
        for pair in rest:
            if pair.type == "pair":
                self.pair(pair, path)

    def header(self, keys: tuple[str, ...], repeated: bool) -> Path:
        """The path that a table's head opens; a key that names an array of tables means its latest element."""
        path: Path = ()
        for position, key in enumerate(keys):
            path = (*path, key)
            if repeated and position == len(keys) - 1:
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def pair(self, node: Node, path: Path) -> None:
        key, *rest = node.named_children
        for part in _keys(key):
            path = (*path, part)
            self.note(path, node)
        if rest:
            self.value(rest[0], path)

    def value(self, node: Node, path: Path) -> None:
        inner = [child for child in node.named_children if child.type != "comment"]
        if node.type == "inline_table":
            for pair in inner:
                self.pair(pair, path)
        elif node.type == "array":
            for position, element in enumerate(inner):
                self.note((*path, position), element)
                self.value(element, (*path, position))

    def note(self, path: Path, node: Node) -> None:
        row, column = node.start_point
        before = self.lines[row][:column] if row < len(self.lines) else b""
        self.places.setdefault(path, (row + 1, len(before.decode("utf-8", "replace")) + 1))


def _keys(node: Node) -> tuple[str, ...]:
    if node.type == "dotted_key":
        return tuple(key for child in node.named_children for key in _keys(child))
    text = (node.text or b"").decode("utf-8")
    if node.type == "bare_key":
        return (text,)
    try:
        (key,) = tomllib.loads(f"{text} = 0")
    except (ValueError, RecursionError):
        key = text
    return (key,)
