"""Build codes: a whole build in a text short enough to read out, which every command takes in place of picks.

A code is the family, then a number whose digits are the choices in the order of their ids (0 is open, an option is its
place in the listing, a numeric choice its step), then two characters that check it. It is written in digits and letters
without I, L, O and U, which are easily misread: 32 characters.

The check is a sum, modulo the prime 1021, of the characters times powers of 10, of which the first 1020 all differ.
So one wrong character, or two of the number that change places, are always found. The listing of the family goes into
the sum: a code that another catalogue made passes by a chance of one in 1021.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple
from zlib import crc32

from configurator.catalogue.choices import Choice
from configurator.catalogue.shops import Family, Shop
from configurator.catalogue.steps import count_of, option_id, step_of, value_at
from configurator.units import Misread, read_quantity

CHARACTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_MISHEARD = str.maketrans({"O": "0", "I": "1", "L": "1", "U": "V"})
_PRIME, _ROOT = 1021, 10  # 10 is a primitive root of 1021
_GROUP = 4


class Read(NamedTuple):
    """What a code says: the family, and the options of the choices that are not open."""

    family: str
    picks: Mapping[str, str]


def build_code(family: Family, picks: Mapping[str, str], open_haves: Iterable[str] = ()) -> str:
    """The code of a build: "TNW5-0K3M-9QT2-...". A choice that is not picked, or in `open_haves`, is open in it.

    KeyError for an option that the choice cannot have.
    """
    unsettled = frozenset(open_haves)
    number, largest = 0, 0
    for choice in family.choices.values():
        size = _size(choice)
        option = "" if choice.id in unsettled else picks.get(choice.id, "")
        number = number * size + (_digit(choice, option) if option else 0)
        largest = largest * size + size - 1
    body = ""
    while largest:
        body, number, largest = CHARACTERS[number % 32] + body, number // 32, largest // 32
    body += _check(family, body)
    return "-".join([_head(family), *(body[at : at + _GROUP] for at in range(0, len(body), _GROUP))])


def read_code(text: str, shop: Shop) -> Read:
    """The build of a code, however it is grouped and in either case. Misread for one that no family here made."""
    if len(text) > 400:
        raise Misread("is too long for a build code", "copy the code once more")
    plain = "".join(mark for mark in text.upper() if not mark.isspace() and mark not in "-_.")
    families = [family for family in shop.families.values() if plain.startswith(_head(family))]
    if not families:
        heads = ", ".join(sorted(_head(family) for family in shop.families.values()))
        raise Misread("is neither a pick, nor a file, nor a build code", f"a code of this shop begins with {heads}")
    for family in families:
        picks = _picks(family, plain[len(_head(family)) :].translate(_MISHEARD))
        if picks is not None:
            return Read(family.id, picks)
    way_out = (
        "compare it with the paper, character by character; a code from before the catalogue changed is no longer good"
    )
    raise Misread("is mistyped, or was made from another catalogue", way_out)


def _picks(family: Family, body: str) -> dict[str, str] | None:
    """The picks of a code's characters; None where they do not stand up to the check."""
    if body.strip(CHARACTERS) or _check(family, body[:-2]) != body[-2:]:
        return None
    number = 0
    for mark in body[:-2]:
        number = number * 32 + CHARACTERS.index(mark)
    picks = {}
    for choice in reversed(tuple(family.choices.values())):
        number, digit = divmod(number, _size(choice))
        if digit:
            picks[choice.id] = _option(choice, digit)
    return None if number else dict(sorted(picks.items()))


def _head(family: Family) -> str:
    return "".join(mark for mark in family.id.upper() if mark != "_")


def _size(choice: Choice) -> int:
    return 1 + (count_of(choice.range) if choice.range else len(choice.options))


def _digit(choice: Choice, option: str) -> int:
    if choice.range is None:
        return 1 + [one.id for one in choice.options].index(choice.option(option).id)
    step = step_of(choice.range, read_quantity(option, choice.range.unit).value)
    if step is None:
        raise KeyError(option)
    return 1 + step


def _option(choice: Choice, digit: int) -> str:
    if choice.range is None:
        return choice.options[digit - 1].id
    return option_id(choice.range, value_at(choice.range, digit - 1))


def _check(family: Family, body: str) -> str:
    total, weight = crc32(_listing(family).encode()) % _PRIME, 1
    for mark in reversed(body):
        weight = weight * _ROOT % _PRIME
        total += weight * (CHARACTERS.index(mark) + 1)
    total %= _PRIME
    return CHARACTERS[total // 32] + CHARACTERS[total % 32]


def _listing(family: Family) -> str:
    """Everything that the digits of a code depend on."""
    lines = [family.id]
    for choice in family.choices.values():
        says = [option.id for option in choice.options]
        if choice.range:
            says = [choice.range.unit, *(str(bound.value.normalize()) for bound in choice.range[1:])]
        lines.append(f"{choice.id}: {' '.join(says)}")
    return "\n".join(lines)
