"""From a text to its tree: a tokenizer and a parser of our own, bounded in length and depth, that refuse all else.

question  = both { "or" both }                 sum     = product { ("+" | "-") product }
both      = relation { "and" relation }        product = signed { ("*" | "/") signed }
relation  = "not" relation                     signed  = "-" signed | atom
          | sum [ ("<" | "<=" | ">" | ">=") sum ]
atom      = number [ unit ] | name | name "(" question { "," question } ")" | "(" question ")"
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from keyword import iskeyword

from configurator.engineering.names import ENTRIES
from configurator.language import nodes
from configurator.language.functions import FUNCTIONS
from configurator.language.tokens import COMPARING, Token, split
from configurator.units import UNITS, Misread, read_number

DEEPEST = 32

Node = nodes.Quantitative | nodes.Question


@lru_cache(maxsize=4096)
def read(text: str) -> nodes.Formula:
    """Read a formula. Misread, in words for its writer, for whatever is not in the grammar."""
    reader = _Reader(text)
    tree = reader.question()
    reader.close()
    return nodes.Formula(text, tree, tuple(dict.fromkeys(reader.names)))


@lru_cache(maxsize=4096)
def read_comparison(text: str) -> nodes.Comparison:
    """Read ">= x", "< 3 mm" or "0.0 mm to 0.75 mm"; Misread for anything else."""
    tokens = split(text)
    first = tokens[0]
    if first.kind == "sign" and first.text in COMPARING:
        bound, is_open = _bound(text[first.end :]), len(first.text) == 1
        if first.text.startswith(">"):
            return nodes.Comparison(text, bound, is_open, None, False, bound.names)
        return nodes.Comparison(text, None, False, bound, is_open, bound.names)
    between = next((token for token in tokens if token.kind == "sign" and token.text == "to"), None)
    if between is None:
        raise Misread(f"{text!r} compares with nothing", "Write it like >= 3 mm, < 3 mm or 1 mm to 3 mm.")
    low, high = _bound(text[: between.start]), _bound(text[between.end :])
    return nodes.Comparison(text, low, False, high, False, tuple(dict.fromkeys(low.names + high.names)))


def _bound(text: str) -> nodes.Formula:
    formula = read(text.strip())
    if formula.is_question:
        raise Misread(f"{formula.text!r} is a question, not a quantity", "A bound is a quantity, such as 3 mm.")
    return formula


class _Reader:
    """Recursive descent over the tokens; `depth` counts the brackets, signs and calls that are open."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = split(text)
        self.at = 0
        self.depth = 0
        self.names: list[str] = []

    @property
    def token(self) -> Token:
        return self.tokens[self.at]

    def next_if(self, *signs: str) -> str:
        """The sign that stands here, if it is one of these, and step past it; else nothing."""
        if self.token.kind != "sign" or self.token.text not in signs:
            return ""
        self.at += 1
        return self.tokens[self.at - 1].text

    def since(self, start: int) -> str:
        """The text from a position to the last token that was read."""
        return self.text[start : self.tokens[self.at - 1].end]

    def close(self) -> None:
        """Nothing may be left over."""
        left, before = self.token, self.tokens[self.at - 1]
        if left.kind == "end":
            return
        if before.kind == "number" and left.kind == "name" and not before.unit:
            raise Misread(f"{left.text!r} after {before.text} is not a known unit", "Units are written as in 3 mm.")
        if left.text == ")":
            raise Misread("a bracket is closed that was never opened", "Take it away, or open it before.")
        if left.text in COMPARING:
            raise Misread("two comparisons follow each other", "Join them: a < b and b < c.")
        raise Misread(f"{left.text!r} is not joined to what stands before it", "Put a sign between them: + - * /.")

    def deeper(self, inside: Callable[[], Node]) -> Node:
        self.depth += 1
        if self.depth > DEEPEST:
            raise Misread(f"it goes more than {DEEPEST} levels deep", "Split it into figures, and use their names.")
        node = inside()
        self.depth -= 1
        return node

    def question(self) -> Node:
        return self.joined("or", self.both, nodes.Either)

    def both(self) -> Node:
        return self.joined("and", self.relation, nodes.Both)

    def joined(self, word: str, part: Callable[[], Node], kind: type[nodes.Both] | type[nodes.Either]) -> Node:
        start, parts = self.token.start, [part()]
        while self.next_if(word):
            parts.append(part())
        if len(parts) == 1:
            return parts[0]
        return kind(self.since(start), tuple(_question(one, word) for one in parts))

    def relation(self) -> Node:
        start = self.token.start
        if self.next_if("not"):
            turned = _question(self.deeper(self.relation), "not")
            return nodes.Not(self.since(start), turned)
        left = self.sum()
        if sign := self.next_if(*COMPARING):
            right = _quantity(self.sum())
            return nodes.Compared(self.since(start), _quantity(left), sign, right)
        return left

    def sum(self) -> Node:
        return self.chain(("+", "-"), self.product, nodes.Sum)

    def product(self) -> Node:
        return self.chain(("*", "/"), self.signed, nodes.Product)

    def chain(
        self, signs: tuple[str, str], part: Callable[[], Node], kind: type[nodes.Sum] | type[nodes.Product]
    ) -> Node:
        start, first, others = self.token.start, part(), []
        while sign := self.next_if(*signs):
            if self.token.kind == "sign" and self.token.text in ("*", "/"):
                raise Misread(f"{sign + self.token.text!r} is no sign here", "There are no powers: write x * x.")
            others.append((sign, _quantity(part())))
        return kind(self.since(start), _quantity(first), tuple(others)) if others else first

    def signed(self) -> Node:
        start = self.token.start
        if not self.next_if("-"):
            return self.atom()
        if self.token.kind == "number":  # -15 C is a temperature, not minus one
            return self.number(start)
        of = _quantity(self.deeper(self.signed))
        return nodes.Negative(self.since(start), of)

    def number(self, start: int) -> nodes.Number:
        token = self.token
        self.at += 1
        value, unit = read_number(token.text), UNITS[token.unit]
        signed = value.copy_negate() if start < token.start else value
        return nodes.Number(self.since(start), unit.to_si(signed), unit.dimension)

    def atom(self) -> Node:
        token = self.token
        if token.kind == "number":
            return self.number(token.start)
        if token.kind == "name":
            self.at += 1
            return self.call(token) if self.next_if("(") else self.name(token)
        if self.next_if("("):
            node = self.deeper(self.question)
            self.close_bracket()
            return node
        here = "it ends" if token.kind == "end" else f"{token.text!r} stands"
        raise Misread(f"{here} where a quantity is wanted", "Write a number with its unit, or a name.")

    def name(self, token: Token) -> nodes.Name:
        if token.text in FUNCTIONS:
            raise Misread(f"{token.text!r} is a function", f"Put what it works on in brackets: {token.text}(...).")
        if iskeyword(token.text):  # a formula shall not look like a program
            raise Misread(f"{token.text!r} cannot be a name", f"Choose a longer one, such as {token.text}_value.")
        self.names.append(token.text)
        return nodes.Name(token.text)

    def call(self, token: Token) -> nodes.Call:
        function = FUNCTIONS.get(token.text)
        if function is None:
            plain = ", ".join(sorted(FUNCTIONS.keys() - ENTRIES.keys()))
            raise Misread(f"{token.text!r} is not a function", f"There are {plain}, and the formulas of engineering.")
        arguments = [] if self.token.text == ")" else [_quantity(self.deeper(self.question))]
        while self.next_if(","):
            arguments.append(_quantity(self.deeper(self.question)))
        self.close_bracket()
        if not function.least <= len(arguments) <= function.most:
            wanted = f"{function.least}" if function.least == function.most else f"{function.least} or more"
            raise Misread(f"{token.text} is given {len(arguments)} arguments", f"It works on {wanted}.")
        return nodes.Call(self.since(token.start), token.text, tuple(arguments))

    def close_bracket(self) -> None:
        if not self.next_if(")"):
            if self.token.kind == "end":
                raise Misread("a bracket is opened and never closed", "Close it.")
            self.close()


def _quantity(node: Node) -> nodes.Quantitative:
    if isinstance(node, nodes.QUESTIONS):
        raise Misread(f"{node.text!r} is a question, not a quantity", "Join questions by and, or, not.")
    return node


def _question(node: Node, word: str) -> nodes.Question:
    if isinstance(node, nodes.QUESTIONS):
        return node
    raise Misread(f"{word!r} joins questions, and {node.text!r} is a quantity", "Compare it with something first.")
