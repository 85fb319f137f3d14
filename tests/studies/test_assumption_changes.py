"""Does the other answer to an assumption, posted, give what the check found when it took that assumption the other way?

The change of every assumption that has one, of every request: its steps are applied by the RFC's own rules, the outcome
is read and checked like any request, and every verdict of every case must be that of the evaluation which took the
assumption the other way without being told so by a request.
"""

from __future__ import annotations

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import ASPECTS, Evaluation, evaluate
from ampwright.engine.calculations.reverse.assumption_edits import assumption_edit
from change_requests import REQUESTS, site_of_request
from patched import patched

ORDER = ("pass", "marginal", "unknown", "fail")
# a source that is said to give more for seconds is also taken to allow higher crests, which nobody asked about alone
SAYS_MORE = ("limit_tiers",)


def _verdicts(found: Evaluation) -> dict[tuple[str, str], str]:
    return {(one.id, name): found.aspect(n, name) for n, one in enumerate(found.sets) for name in ASPECTS}


@pytest.mark.parametrize("name", list(REQUESTS))
def test_the_other_answer_posted_gives_what_taking_it_gave(name: str) -> None:
    site = site_of_request(REQUESTS[name])
    base = evaluate(site, frozenset())
    told = {(one.code, one.pointer, one.value): one.if_instead_change for one in check_load(site).assumptions}
    for item in base.assumptions:
        edit = assumption_edit(site, base.settled, item)
        steps = told[item.code, item.pointer, item.value]
        assert bool(steps) == (edit is not None), item.key
        if edit is None:
            continue
        plain = [{"op": step.op, "path": step.path, "value": step.value} for step in steps]
        again = evaluate(site_of_request(patched(REQUESTS[name], plain)), frozenset())
        assert item.key not in {one.key for one in again.assumptions}, item.key
        flipped = _verdicts(evaluate(site, frozenset({item.key})))
        posted = _verdicts(again)
        assert set(posted) == set(flipped), item.key
        for at, verdict in posted.items():
            if item.code in SAYS_MORE:
                assert ORDER.index(verdict) <= ORDER.index(flipped[at]), (item.key, at)
            else:
                assert verdict == flipped[at], (item.key, at)


def test_other_answers_of_every_kind_are_told() -> None:
    told = {
        one.code
        for request in REQUESTS.values()
        for one in check_load(site_of_request(request)).assumptions
        if one.if_instead_change
    }
    assert {
        "circuit_shared",
        "connections_assumed",
        "cord_laid",
        "cord_size",
        "plate_unknown",
        "head_pressure",
        "limit_continuous",
        "limit_response",
        "limit_tiers",
        "receptacle_rating",
        "reset",
        "restart_protection",
        "soft_start",
        "start_current",
        "switch",
    } <= told
