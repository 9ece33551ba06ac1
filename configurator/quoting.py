"""A case -> its quote: the frozen answer with lines, days, trade-offs and what stays to be settled."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from configurator.answer import Answer
from configurator.answering import asked_for
from configurator.appraise import appraise
from configurator.case import Case
from configurator.cautions import STANDING
from configurator.quote import FromTo, Quote
from configurator.tradeoffs import from_to, makes_a_difference, per_answer, trade_offs


def quote_case(
    case: Case, answer: Answer, today: date, started: date | None, versions: Mapping[str, str]
) -> Quote:
    """The quote for an answer that has a build; its hash is left empty for whoever freezes it.

    It is a draft while anything that is still to settle could change it; `draft` says what.
    """
    build = answer.build
    assert build is not None, "an impossible enquiry has no quote"
    appraisal = appraise(case, build.picks, started)
    spans, subject_to = _open_haves(case, build.reckoned)
    cautions = tuple(dict.fromkeys((*(check.caution for check in answer.checks if check.caution), *STANDING)))
    return Quote(
        answer=answer,
        totals=appraisal.totals,
        promise=appraisal.promise,
        trade_offs=trade_offs(case, build.picks, appraisal),
        from_to=spans,
        assumed=answer.assumed,
        not_included=case.shop.terms.not_included,
        to_confirm=case.shop.terms.to_confirm,
        cautions=cautions,
        dated=today,
        valid_until=today + timedelta(days=case.shop.terms.validity_days),
        draft=_draft(case, answer, build.picks, tuple(spans)),
        versions=versions,
        hash="",
        subject_to=subject_to,
        tallies=appraisal.tallies,
    )


def _open_haves(case: Case, reckoned: tuple[str, ...]) -> tuple[dict[str, FromTo], tuple[str, ...]]:
    """The open haves that change the quote, with its nets under their answers, and those it is merely subject to.

    What is only assumed of the caller's parts binds the build, and the quote is subject to it.
    """
    spans, subject_to = {}, []
    for choice in reckoned:
        answers = per_answer(case, choice)
        if makes_a_difference(answers):
            spans[choice] = from_to(answers)
        else:
            subject_to.append(choice)
    picks = case.enquiry.picks
    assumed = [choice for choice in picks if case.have(choice) and picks[choice].known == "assumed"]
    return spans, (*subject_to, *sorted(assumed))


def _draft(case: Case, answer: Answer, picks: Mapping[str, str], unsettled: tuple[str, ...]) -> tuple[str, ...]:
    """Why the quote cannot be offered as it stands.

    Names of rules, choices and facts, which the teller turns into words.
    """
    signed_for = tuple(sign_off.rule for sign_off in answer.sign_offs)
    extras = tuple(extra.text for extra in case.enquiry.extras)
    return (*signed_for, *unsettled, *asked_for(case, picks), *extras)
