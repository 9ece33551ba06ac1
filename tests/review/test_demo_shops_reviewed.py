"""The demo shops as their rule engineer sees them: nothing to mend, and every rule's cost counted in two ways."""

from __future__ import annotations

from functools import cache

import pytest

from configurator.catalogue.rules import FREE
from configurator.desk import Desk, open_files, open_shop, toml_files
from configurator.review.bench import lay_bench
from configurator.review.effect import effect
from configurator.review.explanation import explain_rule
from configurator.review.lint import lint
from configurator.review.trials import try_rule
from configurator.review.witnesses import ask
from configurator.shipped import demo_folder, rules_folder
from configurator.space import compile_space
from tests.review.desks import DAY

SHOPS = ("tarnwick", "brindlow")


@cache
def demo(name: str) -> Desk:
    return open_shop(demo_folder() / name)


@pytest.mark.parametrize("name", SHOPS)
def test_a_demo_shop_has_nothing_to_mend_and_its_diagram_is_proved(name: str) -> None:
    seen = lint(demo(name), DAY, proving=True)
    assert seen.findings == ()
    assert [proof.builds > 10_000 for proof in seen.proofs] == [True]


@pytest.mark.parametrize("name", SHOPS)
def test_a_near_miss_of_a_demo_rule_is_broken_by_that_rule_alone(name: str) -> None:
    (family,) = demo(name).shop.families.values()
    bench = lay_bench(demo(name), family, DAY)
    for id in bench.tables:
        trial = try_rule(bench, family.rules[id])
        if trial.near_miss is not None:
            said = ask(bench.book, bench.book.picks(trial.near_miss))
            assert (said.standing, said.rules) == (trial.standing, (id,))


@pytest.mark.parametrize("name", SHOPS)
def test_what_a_demo_rule_costs_is_what_its_absence_would_add(name: str) -> None:
    (family,) = demo(name).shop.families.values()
    bench = lay_bench(demo(name), family, DAY)
    space, book = bench.case.space, bench.case.book
    for table in book.tables[::7]:
        (found,) = explain_rule(demo(name), table.name, DAY)
        rest = compile_space(book.sizes, [one for one in book.tables if one is not table], (), space.order)
        assert found.cost is not None
        assert found.cost.removed.possible == sum(rest.count()) - sum(space.count())
        lost = sum(number for (before, after), number in found.cost.moves.items() if before == FREE != after)
        assert lost == rest.count()[0] - space.count()[0]


def test_solid_blocks_for_the_circuit_would_break_no_price_and_be_told_by_one_build() -> None:
    files, shipped = toml_files(demo_folder() / "brindlow"), toml_files(rules_folder())
    wider = shipped["water.toml"].replace(b'then = { use = "drag" }', b'then = { use = ["drag", "circuit"] }')
    assert wider != shipped["water.toml"]
    found = effect(demo("brindlow"), open_files(files, {**shipped, "water.toml": wider}), DAY)
    (family,) = found.families
    assert family.difference is not None
    assert family.difference.kind == "adds"
    witness = family.witnesses["added"]
    assert (witness.picks["cooling"], witness.picks["use"]) == ("solid", "circuit")
    assert (witness.old, witness.rules) == ("impossible", ("solid_block_is_for_drag",))
    assert not found.broke
