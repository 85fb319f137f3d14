"""Does POST /v1/outlet-plans answer every question, and does each plan do what it says when it is posted?"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient
from service_with_demo import demo_client

BREAKER = {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}
SOURCE: dict[str, Any] = {
    "kind": "vehicle",
    "voltage": "120 V",
    "limits": [{"id": "inverter", "continuous": "7200 VA"}],
    "circuits": [{"id": "C1", "device": BREAKER}, {"id": "C2", "device": BREAKER}],
    "receptacles": [
        {"id": name, "type": "5-20R", "circuit": circuit, "ground_fault": "gfci_class_a"}
        for name, circuit in (("R1", "C1"), ("R2", "C1"), ("R3", "C2"))
    ],
    "reset": {"how": "manual"},
    "neutral_bond": "bonded",
}


def tool(name: str, watts: float, plug: str = "5-15P", **members: Any) -> dict[str, Any]:
    option = {"voltage": "120 V", "power": f"{watts} W", "plug": plug}
    return {"id": name, "load_class": "heater", "supply_options": [option], "operated": "by_itself", **members}


ASKED: dict[str, Any] = {"source": SOURCE, "tools": [tool("a", 1500), tool("b", 1500)], "code_basis": []}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("outlet-plans")) as opened:
        yield opened


def ask(client: TestClient[Any], **members: Any) -> dict[str, Any]:
    answer = client.post("/v1/outlet-plans", json={**ASKED, **members})
    assert answer.status_code == 200, answer.text
    body: dict[str, Any] = answer.json()
    for plan in body["plans"]:
        posted = client.post("/v1/load-checks", json=plan["load_check"]["request"])
        assert posted.status_code == 200, posted.text
        checked = posted.json()
        assert checked["request_digest"] == plan["load_check"]["request_digest"]
        assert checked["verdict"] == plan["load_check"]["verdict"]
        assert checked["verdict"]["capacity"] != "fail"
        assert checked["verdict"]["safety"] != "fail"
        assert plan["connections"] == plan["load_check"]["request"]["connections"]
        codes = [item["code"] for item in checked["findings"] if item["severity"] != "info"]
        assert [item["code"] for item in plan["load_check"]["findings"]] == codes
    return body


def into(body: dict[str, Any], plan: int = 0) -> dict[str, str]:
    return {one["plug"]: one["into"] for one in body["plans"][plan]["connections"]}


def test_two_large_loads_get_a_circuit_each(client: TestClient[Any]) -> None:
    body = ask(client)
    assert next(iter(body)) == "outcome"
    assert body["outcome"] == "all_on"
    assert "no permission to energise" in body["notice"]
    assert "R3" in into(body).values()
    assert body["plans"][0]["proven_optimal"]
    assert body["plans"][0]["gap_ratio"] == 0.0
    assert (body["leave_out"], body["conflicts"], body["questions"]) == ([], [], [])


def test_priorities_say_what_stays_off(client: TestClient[Any]) -> None:
    # 2 x 1500 W are 25 A on one circuit of 20 A: three such loads do not go on two circuits
    tools = [tool("a", 1500), tool("b", 1500), tool("c", 1500)]
    for most in ("a", "b", "c"):
        wishes = [{"tool": most, "priority": 1}, {"tool": "c" if most != "c" else "a", "priority": 2}]
        body = ask(client, tools=tools, wishes=wishes)
        assert body["outcome"] == "some_stay_off"
        named = {wish["tool"] for wish in wishes}
        assert body["plans"][0]["stays_off"] == [name for name in "abc" if name not in named]
        [conflict] = body["conflicts"]
        assert conflict["tools"] == ["a", "b", "c"]
        assert (
            conflict["because"] == ["circuit_over_rating", "outlets_taken"]
            or "circuit_over_rating" in (conflict["because"])
        )
        assert conflict["smallest"]
        [left] = body["leave_out"]
        assert left["what_to_do"]


def test_groups_and_followers_are_on_or_off_together(client: TestClient[Any]) -> None:
    tools = [tool("a", 1500), tool("b", 1500), tool("c", 1500, follows="a")]
    body = ask(client, tools=tools)
    assert body["plans"][0]["stays_off"] == ["b"]
    body = ask(client, tools=[tool(n, 1500) for n in "abc"], groups=[{"id": "g", "tools": ["b", "c"]}])
    assert body["plans"][0]["stays_off"] == ["a"]


def test_cords_reach_where_work_is(client: TestClient[Any]) -> None:
    cord = {"size": "10 AWG", "laid": "straight", "plug": "5-15P", "marked": "15 A"}
    cords = [{"id": "short", "length": "25 ft", **cord}, {"id": "long", "length": "50 ft", **cord}]
    tools = [tool("near", 600), tool("far", 600)]
    ways = [{"receptacle": "R3", "distance": "45 ft"}]
    asked = {
        "tools": tools,
        "cords": cords,
        "positions": [{"id": "roof", "distance": "300 ft", "ways": ways}, {"id": "yard", "distance": "20 ft"}],
        "wishes": [{"tool": "far", "position": "roof", "priority": 1}, {"tool": "near", "position": "yard"}],
    }
    found = into(ask(client, **asked))
    assert found == {"short": found["short"], "near": "short", "long": "R3", "far": "long"}
    asked["positions"][0]["ways"] = [{"receptacle": "R3", "distance": "70 ft"}]
    body = ask(client, **asked)
    assert body["plans"][0]["joints"] == 1, "both cords in series reach, so the other tool goes without"
    asked["positions"][0]["ways"] = [{"receptacle": "R3", "distance": "100 ft"}]
    body = ask(client, **asked)
    assert [item["because"] for item in body["leave_out"]] == [["out_of_reach"]]


def test_a_dual_voltage_tool_says_why(client: TestClient[Any]) -> None:
    body = ask(
        client,
        source={"kind": "catalogue", "entry": "truck-flatbed"},
        tools=[{"id": "welder", "entry": "welder-tig-stick-200a"}],
    )
    [planned] = body["plans"][0]["tools"]
    assert planned["supply_option"] in ("us-240", "us-120")
    assert planned["why"] == "better_plan"
    body = ask(
        client,
        source={"kind": "catalogue", "entry": "truck-flatbed"},
        tools=[{"id": "welder", "entry": "welder-tig-stick-200a"}],
        wishes=[{"tool": "welder", "supply_option": "us-240"}],
    )
    [planned] = body["plans"][0]["tools"]
    assert (planned["supply_option"], planned["receptacle"], planned["why"]) == ("us-240", "R8", "asked_for")


def test_what_is_asked_on_site_is_a_question(client: TestClient[Any]) -> None:
    receptacles = [{"id": name, "type": "5-20R", "ground_fault": "gfci_class_a"} for name in ("R1", "R2")]
    source = {**SOURCE, "circuits": [], "receptacles": receptacles}
    del source["circuits"]
    body = ask(client, source=source)
    assert body["outcome"] == "some_stay_off"
    [question] = body["questions"]
    assert (question["code"], question["then_on"]) == ("circuit_shared", ["a", "b"])


def test_lights_keep_a_circuit_of_their_own_where_the_rules_ask(client: TestClient[Any]) -> None:
    # 29 CFR 1926.405(a)(2)(ii)(C); NFPA 70 590.4(D)(1)
    light = tool("light", 100, load_class="led_light")
    found = into(ask(client, tools=[tool("a", 500), light, tool("b", 500)], code_basis=["osha-1926"]))
    circuit = {"R1": "C1", "R2": "C1", "R3": "C2"}
    assert circuit[found["light"]] not in {circuit[found["a"]], circuit[found["b"]]}


def test_what_the_rules_forbid_of_the_site_opens_no_door_to_more(client: TestClient[Any]) -> None:
    """R9 of 20 A is on a circuit of 30 A: no plan mends that (29 CFR 1926.405(b)(2)(i), table K-5). That R1 has a
    device of another kind than a class A interrupter (1926.404(b)(1)(ii)) is new, and a plan that uses it is none."""
    other = {"R1": {"ground_fault": "rcd_30ma_type_a"}}
    receptacles = [{**one, **other.get(one["id"], {})} for one in SOURCE["receptacles"]]
    receptacles.append({"id": "R9", "type": "5-20R", "circuit": "C9", "ground_fault": "gfci_class_a"})
    circuits = [*SOURCE["circuits"], {"id": "C9", "device": {**BREAKER, "rating": "30 A"}}]
    asked = {
        "source": {**SOURCE, "receptacles": receptacles, "circuits": circuits},
        "tools": [tool("a", 600)],
        "code_basis": ["osha-1926"],
    }
    free = ask(client, **asked)
    assert free["plans"][0]["load_check"]["verdict"]["code"] == "fail"
    assert into(free)["a"] != "R1"
    held = ask(client, **asked, wishes=[{"tool": "a", "into": "R1"}])
    assert (held["outcome"], held["plans"]) == ("nothing_fits", [])
    assert held["leave_out"][0]["because"] == ["ground_fault_protection_other_kind"]


def test_nothing_is_an_answer(client: TestClient[Any]) -> None:
    body = ask(client, source={**SOURCE, "receptacles": []})
    assert (body["outcome"], body["plans"]) == ("nothing_fits", [])
    assert {code for item in body["leave_out"] for code in item["because"]} == {"no_receptacle"}
    body = ask(client, tools=[])
    assert (body["outcome"], body["plans"]) == ("all_on", [])
    body = ask(client, tools=[tool("welder", 1000, "6-50P")])
    assert body["leave_out"][0]["because"] == ["plug_does_not_fit"]
    # all forced on one receptacle, which takes one plug
    wishes = [{"tool": name, "into": "R1"} for name in ("a", "b")]
    body = ask(client, wishes=wishes)
    assert len(body["plans"][0]["stays_off"]) == 1
    # two of 1500 W would be too much for its circuit besides
    assert body["conflicts"][0]["because"] == ["circuit_over_rating", "outlets_taken"]


def test_an_engine_indoors_is_planned_for_nobody(client: TestClient[Any]) -> None:
    source = {**SOURCE, "kind": "engine_generator", "technology": "inverter"}
    body = ask(client, source=source, conditions={"place": "indoors"})
    assert body["outcome"] == "nothing_fits"
    assert body["conflicts"][0]["because"] == ["exhaust_near_people"]
    assert body["conflicts"][0]["tools"] == []


REFUSED = [
    ({"groups": [{"id": "g", "tools": ["a", "x"]}]}, "/groups/0/tools/1", "unknown_tool"),
    ({"groups": [{"id": "g", "tools": ["a", "a"]}]}, "/groups/0/tools/1", "repeated_member"),
    ({"groups": [{"id": "g", "tools": ["a"]}, {"id": "g", "tools": ["b"]}]}, "/groups/1/id", "repeated_id"),
    ({"wishes": [{"tool": "x"}]}, "/wishes/0/tool", "unknown_tool"),
    ({"wishes": [{"tool": "a"}, {"tool": "a"}]}, "/wishes/1/tool", "repeated_member"),
    ({"wishes": [{"tool": "a", "position": "roof"}]}, "/wishes/0/position", "unknown_position"),
    ({"wishes": [{"tool": "a", "into": "R9"}]}, "/wishes/0/into", "unknown_receptacle"),
    ({"wishes": [{"tool": "a", "supply_option": "x"}]}, "/wishes/0/supply_option", "unknown_supply_option"),
    ({"wishes": [{"tool": "a", "own_cord": "-2 m"}]}, "/wishes/0/own_cord", "out_of_range"),
    ({"wishes": [{"tool": "a", "priority": 0}]}, "/wishes/0/priority", "out_of_range"),
    ({"positions": [{"id": "p", "distance": "12"}]}, "/positions/0/distance", "unit_missing"),
    ({"positions": [{"id": "p"}, {"id": "p"}]}, "/positions/1/id", "repeated_id"),
    (
        {"positions": [{"id": "p", "ways": [{"receptacle": "X", "distance": "1 m"}]}]},
        "/positions/0/ways/0/receptacle",
        "unknown_receptacle",
    ),
    ({"connections": [{"plug": "a", "into": "R1"}]}, "/connections", "member_does_not_apply"),
    ({"include": ["faults"]}, "/include", "not_included_here"),
    ({"source": {"kind": "vehicle", "voltage": "120 V"}}, "/source/receptacles", "receptacles_not_listed"),
    ({"tools": [tool(f"t{n}", 100) for n in range(41)]}, "/tools", "too_many_items"),
    ({"tools": [tool("a", 100), tool("a", 100)]}, "/tools/1/id", "repeated_id"),
    ({"cords": [{"id": "c", "length": "-5 ft"}]}, "/cords/0/length", "out_of_range"),
    ({"wishs": []}, "/wishs", "unknown_member"),
]


@pytest.mark.parametrize(("members", "pointer", "code"), REFUSED, ids=[f"{p}-{c}" for _, p, c in REFUSED])
def test_a_refused_question_points_at_its_fault(
    client: TestClient[Any], members: dict[str, Any], pointer: str, code: str
) -> None:
    answer = client.post("/v1/outlet-plans", json={**ASKED, **members})
    assert answer.status_code == 422, answer.text
    found = {(item["pointer"], item["code"]) for item in answer.json()["errors"]}
    assert pointer in {at for at, _ in found}, found
    assert code in {what for at, what in found if at == pointer}, found


def test_the_same_question_has_the_same_bytes(client: TestClient[Any]) -> None:
    asked = {**ASKED, "tools": [tool(f"t{n}", 300 + 150 * n) for n in range(6)], "cords": REELS[:2]}
    one, other = (client.post("/v1/outlet-plans", json=asked).content for _ in range(2))
    assert one == other


REELS: list[dict[str, Any]] = [
    {"id": f"reel-{n}", "length": "25 m", "size": "12 AWG", "laid": "straight", "plug": "5-15P",
     "outlets": {"type": "5-15R", "count": 3}}
    for n in range(4)
]  # fmt: skip


def test_forty_tools_on_twenty_receptacles_are_planned(client: TestClient[Any]) -> None:
    receptacles = [
        {"id": f"R{n}", "type": "5-20R", "circuit": f"C{n // 2}", "ground_fault": "gfci_class_a"} for n in range(20)
    ]
    circuits = [{"id": f"C{n}", "device": BREAKER} for n in range(10)]
    source = {**SOURCE, "receptacles": receptacles, "circuits": circuits}
    source["limits"] = [{"id": "inverter", "continuous": "24000 VA"}]
    tools = [tool(f"t{n}", 300 + 40 * (n % 7)) for n in range(40)]
    body = ask(client, source=source, tools=tools, plans=1)
    plan = body["plans"][0]
    assert len(plan["connections"]) == 20, "one plug a receptacle, and no cord with several outlets"
    assert plan["gap_ratio"] >= 0.0


def test_a_plan_that_costs_too_much_is_refused_before_it_starts(tmp_path: Path) -> None:
    cords = [{**REELS[0], "id": f"c{n}", "length": f"{n + 5} m"} for n in range(12)]
    asked = {**ASKED, "tools": [tool(f"t{n}", 100 + n) for n in range(12)], "cords": cords}
    with demo_client(tmp_path, cost_limit_units=1000) as client:
        answer = client.post("/v1/outlet-plans", json=asked)
    assert answer.status_code == 422, answer.text
    assert answer.json()["type"].endswith("/too-much-work")
