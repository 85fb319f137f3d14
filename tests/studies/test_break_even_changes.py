"""Does a change, applied and posted again, really give the verdicts that its break-even says?

Every break-even of every demo request, and of requests written by hand: the steps are applied by the RFC's own rules
(tests/patched.py), the outcome goes through references, reading and validation like any request, and the load check
that comes back must say what was promised, of the cases and of the whole. What promised and what answers share no step
but the check itself.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load, judge
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.load_check.load_check_included import with_included
from ampwright.engine.calculations.load_check.load_check_result import Finding
from change_requests import REQUESTS, site_of_request
from patched import patched

ORDER = ("pass", "marginal", "unknown", "fail")


def _findings(request: dict[str, Any]) -> tuple[Finding, ...]:
    site = site_of_request(request)
    return with_included(site, check_load(site), ("break_evens",))[0].findings


TOLD = {name: _findings(request) for name, request in REQUESTS.items()}


@pytest.mark.parametrize("name", list(REQUESTS))
def test_every_change_posted_again_gives_what_it_says(name: str) -> None:
    for finding in TOLD[name]:
        for even in finding.break_even:
            steps = [
                {"op": step.op, "path": step.path} | ({} if step.op == "remove" else {"value": step.value})
                for step in even.change
            ]
            assert steps, (finding.code, even.text)
            site = site_of_request(patched(REQUESTS[name], steps))
            answer = check_load(site)
            assert answer.verdict == even.answer_then, (finding.code, even.text)
            of_cases = {case.id: case for case in answer.cases}
            assert set(even.cases) <= set(of_cases), (finding.code, even.text)
            # a case of an answer has one verdict, that of capacity and safety together; each is found alone
            again = judge(site)
            places = {running.id: n for n, running in enumerate(again.base.sets)}
            for case in even.cases:
                both = [again.verdicts[places[case], aspect] for aspect in ("capacity", "safety")]
                assert max(both, key=ORDER.index) == of_cases[case].verdict
            if finding.aspect == "code":
                assert even.then == answer.verdict.code, (finding.code, even.text)
            else:
                then = max((again.verdicts[places[case], finding.aspect] for case in even.cases), key=ORDER.index)
                assert then == even.then, (finding.code, even.text)
            # and the finding is gone, or is less bad than it was
            still = [
                one
                for one in answer.findings
                if (one.code, one.pointer, one.text) == (finding.code, finding.pointer, finding.text)
                and set(one.cases) == set(finding.cases) == set(even.cases)
            ]
            assert all(one.severity != finding.severity or finding.severity != "danger" for one in still)


def test_break_evens_are_told_of_every_kind() -> None:
    texts = [even.text for findings in TOLD.values() for one in findings for even in one.break_even]
    for part in ("without ", " of 12 AWG", " long", "unroll all", "stays off", "in the open", "another circuit"):
        assert any(part in text for text in texts), part


def test_dangerous_advice_is_never_given() -> None:
    # practice of the trade: no adapter, no bigger breaker, no order of starting, nothing above a label
    for findings in TOLD.values():
        for finding in findings:
            for even in finding.break_even:
                for word in ("adapter", "breaker", "rating", "order", "first"):
                    assert word not in even.text.lower()
                for step in even.change:
                    assert "/device" not in step.path
                    assert "start_order" not in step.path or step.op == "remove"


def test_the_longest_cord_told_is_the_longest_that_holds() -> None:
    """A foot more brings the finding back: the edge that bisection found is the edge that stepping finds."""
    request = REQUESTS["j1-shelter-frame-van-panel"]
    finding = next(one for one in TOLD["j1-shelter-frame-van-panel"] if one.code == "low_voltage_at_tool")
    even = next(one for one in finding.break_even if one.text.endswith("long"))
    (step,) = even.change
    feet = int(str(step.value).removesuffix(" ft"))

    def level(length: int) -> str:
        again = evaluate(
            site_of_request(patched(request, [{"op": "add", "path": step.path, "value": f"{length} ft"}])), frozenset()
        )
        rows = [
            check.verdict
            for row, checks in zip(again.rows, again.row_checks, strict=True)
            for check in checks
            if again.sets[row.case].id in finding.cases and check.code == finding.code
        ]
        return max(rows, key=ORDER.index)

    lengths = range(feet - 5, feet + 6)
    holds = [level(length) for length in lengths]
    assert holds[5] != holds[6]
    assert ORDER.index(holds[5]) < ORDER.index(holds[6])
