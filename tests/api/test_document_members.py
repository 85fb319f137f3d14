"""Does the document say of every member, parameter, header and schema what it is, in which unit and which range?

A walk over the whole document; what a reader of it has nothing else for must stand in it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from ampwright import app
from ampwright.api.member_words import UNITS, is_number, load_member_words, unit_of

Json = dict[str, Any]
DOCUMENT: Json = json.loads(app.document())
SCHEMAS: dict[str, Json] = DOCUMENT["components"]["schemas"]
SHORTEST = 12  # characters of a description
# Numbers that have no unit of their own, each with the reason. All other numbers name one.
WITHOUT_UNIT = {
    "low": "in the unit of the member that holds the band",
    "typical": "in the unit of the member that holds the band",
    "high": "in the unit of the member that holds the band",
    "p10": "in the unit of the member that holds the percentiles",
    "p50": "in the unit of the member that holds the percentiles",
    "p90": "in the unit of the member that holds the percentiles",
    "value": "in the unit that `figure` ends in",
    "limit": "in the unit that `figure` ends in",
    "margin": "in the unit that `figure` ends in",
    "values": "in the unit that `figure` ends in",
    "rating": "in `unit`",
    "mean_amount": "in `unit`",
    "largest_amount": "in `unit`",
    "amount": "in `unit`, or in `currency`",
    "asked": "in `unit`",
    "done": "in `unit`",
    "hire": "in `currency`",
    "energy": "money, in `currency`",
    "whole": "in `currency`",
    "age_years": "the name says it",
    "score": "a weighed sum of shares",
    "power_factor": "a ratio by its definition",
    "crest_factor": "a ratio by its definition",
    "factor": "SI units for one of the label",
    "offset": "in the SI unit of the dimension",
    "voltage_low": "[V], in its description",
    "voltage_high": "[V], in its description",
    "power_low": "[W], in its description",
    "power_high": "[W], in its description",
    "welding_in_ten_minutes_s": "the name says it",
}
# Weights of criteria: the name is that of the criterion, the number is no figure of it.
WEIGHTS = ("ComparisonWeights", "UsedWeights")


def members() -> Iterator[tuple[str, str, Json]]:
    for name, schema in SCHEMAS.items():
        for member, shown in schema.get("properties", {}).items():
            yield name, member, shown


def operations() -> Iterator[Json]:
    for item in DOCUMENT["paths"].values():
        yield from item.values()


def parameters() -> Iterator[tuple[str, Json]]:
    for operation in operations():
        for parameter in operation.get("parameters", []):
            yield f"{operation['operationId']} {parameter['name']}", parameter


def says_little(name: str, text: str) -> bool:
    """Whether a description is missing, too short, or no more than the name once more."""
    words = set(re.findall(r"[a-z]+", text.lower())) - {"the", "a", "an", "of", "field", "member", "value"}
    return len(text.strip()) < SHORTEST or not words - set(re.findall(r"[a-z]+", name.lower()))


def own_number(shown: Json) -> Json:
    """The number itself, of a list its items."""
    return own_number(shown["items"]) if shown.get("type") == "array" else shown


def is_bounded(shown: Json) -> bool:
    number = own_number(shown)
    if "$ref" in number or "const" in number or "enum" in number:
        return True
    return "minimum" in number or "exclusiveMinimum" in number


def test_every_schema_is_described() -> None:
    assert [name for name, schema in SCHEMAS.items() if says_little(name, schema.get("description", ""))] == []


def test_every_member_is_described() -> None:
    """To describe one: the Struct's own Meta, or a word in contract/member_words.toml."""
    against = [
        f"{name}.{member}" for name, member, shown in members() if says_little(member, shown.get("description", ""))
    ]
    assert against == []


def test_every_parameter_and_header_is_described() -> None:
    assert [where for where, one in parameters() if says_little(one["name"], one.get("description", ""))] == []
    headers = dict(DOCUMENT["components"]["headers"])
    for operation in operations():
        for status, response in operation["responses"].items():
            assert not says_little("response", response["description"]), f"{operation['operationId']} {status}"
            for name, header in response.get("headers", {}).items():
                headers |= {} if "$ref" in header else {name: header}
    assert [name for name, header in headers.items() if says_little(name, header.get("description", ""))] == []


def test_every_operation_has_summary_and_description() -> None:
    against = [one["operationId"] for one in operations() if says_little(one["summary"], one.get("description", ""))]
    assert against == []
    assert [one["operationId"] for one in operations() if says_little("", one["summary"])] == []


def test_every_operation_shows_two_examples() -> None:
    """In its request, its parameters or its answers; tests replay each of them."""

    def shown(node: Any) -> set[str]:
        if isinstance(node, dict):
            here = set(node["examples"]) if isinstance(node.get("examples"), dict) else set()
            return here.union(*(shown(one) for key, one in node.items() if key != "examples"))
        return set().union(*(shown(one) for one in node)) if isinstance(node, list) else set()

    assert [one["operationId"] for one in operations() if len(shown(one)) < 2] == []


def test_every_number_has_a_unit() -> None:
    against = []
    for name, member, shown in members():
        if name in WEIGHTS or not is_number(shown) or own_number(shown).get("type") == "integer":
            continue  # an integer counts or numbers something
        unit = unit_of(member)
        told = shown["description"].lower()
        if unit and not told.endswith(f"{unit.lower()}."):
            against.append(f"{name}.{member}: its description ends in another unit")
        if not unit and member not in WITHOUT_UNIT:
            against.append(f"{name}.{member}: neither its name nor the list here says a unit")
    for where, parameter in parameters():
        if parameter["schema"].get("type") == "number":
            assert parameter["name"] in WITHOUT_UNIT or unit_of(parameter["name"]), where
    assert against == []


def test_every_number_has_a_range() -> None:
    against = [f"{name}.{member}" for name, member, shown in members() if is_number(shown) and not is_bounded(shown)]
    # From a unit to SI by `value x factor + offset`: 0 degF lies below 0 degC, other units have none.
    assert against == ["UnitRow.offset"]
    assert [where for where, one in parameters() if is_number(one["schema"]) and not is_bounded(one["schema"])] == []


def test_every_quantity_of_a_request_says_units_and_range() -> None:
    """Texts such as "15 A": the pattern has the units, and the words say them and what is taken."""
    quantities = 0
    for name, member, shown in members():
        if "with its unit (" in shown.get("description", ""):
            quantities += 1
            units = re.search(r"with its unit \(([^)]*)\)", shown["description"])
            assert units is not None
            assert all(re.escape(unit) in shown["pattern"] for unit in units[1].split(", ")), f"{name}.{member}"
            assert re.search(r"; from -?[0-9][0-9,.e+]* to -?[0-9]", shown["description"]), f"{name}.{member}"
    assert quantities > 100


def test_what_an_answer_may_leave_out_is_not_called_needed() -> None:
    """ "Left out where ..." stands only beside what may be left out."""
    against = [
        f"{name}.{member}"
        for name, member, shown in members()
        if re.search(r"\bLeft out\b|\bMay be left out\b|last page lacks it", shown["description"])
        and member in SCHEMAS[name].get("required", [])
    ]
    assert against == []


def test_addresses_in_the_words_exist() -> None:
    text = json.dumps([SCHEMAS, [one.get("description", "") for one in operations()]])
    named = {path for path in re.findall(r"/v1/[a-z-]+(?:/[a-z-]+)*", text) if not path.endswith("/")}
    real = {re.sub(r"/\{[^}]*\}.*", "", path) for path in DOCUMENT["paths"]} | set(DOCUMENT["paths"])
    assert named - real == set()


def test_no_word_is_left_over() -> None:
    """A word for a member that is gone would come back with another meaning."""
    words = load_member_words()
    there = {(name, member) for name, member, _ in members()}
    assert set(words.members) - {member for _, member in there} == set()
    assert {(name, one) for name, told in words.only.items() for one in told} - there == set()
    assert set(words.ranges) - {member for _, member, shown in members() if is_number(shown)} == set()
    assert set(words.schemas) - set(SCHEMAS) == set()
    assert [name for name, text in words.schemas.items() if SCHEMAS[name]["description"] != text] == []


@pytest.mark.parametrize(("member", "unit"), [("current_a", "in A"), ("headroom_va", "in VA"), ("left_m3", "in cubic")])
def test_unit_is_read_off_the_name(member: str, unit: str) -> None:
    assert unit_of(member).startswith(unit)


def test_longer_endings_go_first() -> None:
    endings = list(UNITS)
    assert [(a, b) for i, a in enumerate(endings) for b in endings[i + 1 :] if b.endswith(a)] == []
