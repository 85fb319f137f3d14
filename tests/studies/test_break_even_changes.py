"""Does a change, applied and posted again, really give the verdict that its break-even says?

Every break-even of every demo request, and of requests written by hand: the steps are applied by the RFC's own rules
(tests/patched.py), the outcome goes through references, reading and validation like any request, and the load check
that comes back must say what was promised. What promised and what answers share no step but the check itself.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from ampwright.catalogue.demo_data import demo_requests
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.load_check import check_load
from ampwright.engine.calculations.load_check_evaluation import evaluate
from ampwright.engine.calculations.load_check_included import with_included
from ampwright.engine.calculations.load_check_result import Finding
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.studies.references import resolve
from demo_lookup import DemoLookup
from patched import patched
from site_of import resistive

ORDER = ("pass", "marginal", "unknown", "fail")


def _site(request: dict[str, Any]) -> Site:
    outcome = resolve(msgspec.convert(request, LoadCheckRequest), DemoLookup())
    assert outcome.request is not None, outcome.faults
    site, unread = read_site(outcome.request, outcome.places, outcome.adapters)
    faults = (*outcome.faults, *unread, *validate(site))
    assert not faults, faults
    return site


def _findings(request: dict[str, Any]) -> tuple[Finding, ...]:
    site = _site(request)
    return with_included(site, check_load(site), ("break_evens",))[0].findings


BY_HAND: dict[str, dict[str, Any]] = {
    # nothing said of circuits, connections or cases: two saws and a compressor at two receptacles
    "little": {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "receptacles": [{"id": "R1", "marked": "20 A"}, {"id": "R2", "marked": "20 A"}],
        },
        "tools": [
            {"id": name, "load_class": kind, "supply_options": [{"voltage": "120 V", "current": "15 A"}]}
            for name, kind in (("compressor", "air_compressor"), ("saw", "circular_saw"))
        ],
        "people": 1,
    },
    "cords": {
        "source": {
            "kind": "site_supply",
            "voltage": "120 V",
            "resistance": "0.05 ohm",
            "circuits": [
                {"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
                {"id": "C2", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}},
            ],
            "receptacles": [
                {"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"},
                {"id": "R2", "type": "5-20R", "circuit": "C2", "ground_fault": "gfci_class_a"},
            ],
            "reset": {"how": "manual"},
        },
        "tools": [
            {
                "id": name,
                "load_class": "angle_grinder",
                "supply_options": [{"voltage": "120 V", "current": "12 A"}],
                "switch": "constant_pressure",
            }
            for name in ("one", "two")
        ],
        "cords": [
            {
                "id": "thin",
                "length": "150 ft",
                "size": "16 AWG",
                "laid": "coiled",
                "plug": "5-15P",
                "outlets": {"type": "5-15R", "count": 3},
            }
        ],
        "connections": [
            {"plug": "thin", "into": "R1"},
            {"plug": "one", "into": "thin"},
            {"plug": "two", "into": "thin"},
        ],
        "people": 2,
        "cases": [{"id": "both", "running": ["one", "two"], "start_order": ["two", "one"]}],
    },
}
BY_HAND["reel"] = {
    **BY_HAND["cords"],
    "tools": [resistive("heater", "1700 W")],
    "cords": [
        {
            "id": "reel",
            "length": "80 ft",
            "size": "14 AWG",
            "plug": "5-15P",
            "marked": "15 A",
            "outlets": {"type": "5-15R"},
            "laid": "drum",
            "drum_layers": 3,
        }
    ],
    "connections": [{"plug": "reel", "into": "R1"}, {"plug": "heater", "into": "reel"}],
    "cases": [{"id": "warm", "running": ["heater"]}],
}
# two heaters of 14 A on one 20 A circuit, and a free receptacle on another
BY_HAND["crowded"] = {
    "source": {
        **BY_HAND["cords"]["source"],
        "receptacles": [
            {"id": name, "type": "5-20R", "circuit": circuit, "ground_fault": "gfci_class_a"}
            for name, circuit in (("R1", "C1"), ("R2", "C1"), ("R3", "C2"))
        ],
    },
    "tools": [resistive("one", "1700 W"), resistive("two", "1700 W")],
    "connections": [{"plug": "one", "into": "R1"}, {"plug": "two", "into": "R2", "leg": "L1"}],
    "cases": [{"id": "warm", "running": ["one", "two"]}],
}
REQUESTS = {**{name: msgspec.json.decode(body) for name, body in demo_requests().items()}, **BY_HAND}
TOLD = {name: _findings(request) for name, request in REQUESTS.items()}


@pytest.mark.parametrize("name", list(REQUESTS))
def test_every_change_posted_again_gives_what_it_says(name: str) -> None:
    for finding in TOLD[name]:
        for even in finding.break_even:
            if not even.change:
                continue
            steps = [
                {"op": step.op, "path": step.path} | ({} if step.op == "remove" else {"value": step.value})
                for step in even.change
            ]
            site = _site(patched(REQUESTS[name], steps))
            again = evaluate(site, frozenset())
            places = {running.id: n for n, running in enumerate(again.sets)}
            assert set(even.cases) <= set(places), (finding.code, even.text)
            then = max((again.aspect(places[case], finding.aspect) for case in even.cases), key=ORDER.index)
            assert then == even.then, (finding.code, even.text)
            # and the answer a caller sees of those cases is no worse than that verdict allows
            answer = check_load(site)
            if then in ("pass", "marginal"):
                still = [
                    one
                    for one in answer.findings
                    if (one.code, one.pointer) == (finding.code, finding.pointer) and set(one.cases) & set(even.cases)
                ]
                assert all(one.severity != "danger" for one in still), (finding.code, even.text)


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
            _site(patched(request, [{"op": "add", "path": step.path, "value": f"{length} ft"}])), frozenset()
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
