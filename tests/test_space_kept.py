"""A space as bytes: what comes back is what was kept, and damaged bytes are refused."""

from __future__ import annotations

from struct import pack_into
from zlib import crc32

import pytest
from hypothesis import given

from configurator.space import Space, Table, Tally, Term, compile_space
from tests.catalogues import Catalogue, catalogues

HEAD = 20  # mark, checksum, two lengths


@given(catalogues())
def test_a_space_comes_back_from_its_bytes_as_it_was(catalogue: Catalogue) -> None:
    space = catalogue.picked()
    back = Space.from_bytes(space.to_bytes())
    assert back.to_bytes() == space.to_bytes()
    assert (back.sizes, back.order, back.picks) == (space.sizes, space.order, space.picks)
    assert (back.tables, back.tallies) == (catalogue.tables, catalogue.tallies)
    assert back.count() == space.count()
    assert back.standings() == space.standings()
    assert list(back.k_cheapest("price")) == list(space.k_cheapest("price"))
    assert back.range("mass", free=True) == space.range("mass", free=True)
    assert back.conflicts() == space.conflicts()


def small() -> bytes:
    tables = [Table("first", (0, 1), bytes([0, 1, 0, 0, 2, 0])), Table("second", (1, 2), bytes([0, 2, 0, 0, 1, 0]))]
    tally = Tally("price", (Term((0,), (5, 7)), Term((0, 2), (0, 0, 0, 9))))
    return compile_space([2, 3, 2], tables, [tally]).pick(1, 2).to_bytes()


def test_a_flipped_bit_anywhere_is_refused() -> None:
    data = small()
    for place in range(len(data)):
        damaged = bytearray(data)
        damaged[place] ^= 1 << place % 8
        with pytest.raises(ValueError):
            Space.from_bytes(bytes(damaged))


def test_bytes_cut_short_or_run_on_are_refused() -> None:
    data = small()
    for length in range(len(data)):
        with pytest.raises(ValueError):
            Space.from_bytes(data[:length])
    with pytest.raises(ValueError):
        Space.from_bytes(data + b"\0")


def test_bytes_that_say_more_than_a_space_are_refused_though_their_checksum_is_right() -> None:
    data = bytearray(small() + b"more")
    pack_into("<I", data, 8, crc32(data[HEAD:]))
    with pytest.raises(ValueError):
        Space.from_bytes(bytes(data))


@pytest.mark.parametrize("number", [-(2**63), -2, -1, 0, 1, 2, 3, 7, 10**6, 2**63 - 1])
def test_bytes_with_a_right_checksum_over_wrong_numbers_never_break_the_reader(number: int) -> None:
    data = small()
    answered = refused = 0
    for place in range(HEAD, len(data) - 8, 4):
        damaged = bytearray(data)
        pack_into("<q", damaged, place, number)
        pack_into("<I", damaged, 8, crc32(damaged[HEAD:]))
        try:
            space = Space.from_bytes(bytes(damaged))
        except ValueError:
            refused += 1
        else:
            answered += 1
            assert len(space.standings()) == 3
    assert refused and answered + refused == len(range(HEAD, len(data) - 8, 4))
