"""Is a request read as it is meant, and are all texts that cannot be read told at once, each with its place?"""

from __future__ import annotations

import json
from typing import Any

import msgspec
import pytest
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.validation import validate

SMALLEST: dict[str, Any] = {
    "source": {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1", "marked": "20 A"}]},
    "tools": [
        {
            "id": "compressor",
            "load_class": "air_compressor",
            "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        },
        {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "15 A"}]},
    ],
}
# every entry written out
TWO_PEOPLE: dict[str, Any] = {
    "source": {
        "kind": "vehicle",
        "voltage": "120 V",
        "limits": [{"id": "inverter", "continuous": "4000 VA"}],
        "receptacles": [
            {"id": "R1", "type": "5-20R", "marked": "20 A"},
            {"id": "R2", "type": "5-20R", "marked": "20 A"},
        ],
        "reset": {"how": "automatic", "after": "3..8 s"},
    },
    "tools": [
        {"id": "compressor", "load_class": "air_compressor"},
        {"id": "saw", "load_class": "circular_saw"},
        {"id": "grinder", "load_class": "angle_grinder", "switch": "momentary_lock_on"},
    ],
    "cords": [
        {"id": "heavy", "size": "10 AWG", "length": "100 ft", "laid": "straight"},
        {
            "id": "long",
            "length": "100 ft",
            "size": "14 AWG",
            "marked": "13 A",
            "outlets": {"type": "5-15R", "count": 3},
        },
    ],
    "connections": [
        {"plug": "heavy", "into": "R1"},
        {"plug": "compressor", "into": "heavy"},
        {"plug": "long", "into": "R2"},
        {"plug": "saw", "into": "long"},
        {"plug": "grinder", "into": "long"},
    ],
    "people": 2,
    "cases": [
        {"id": "cutting", "running": ["compressor", "saw"]},
        {"id": "everything", "running": ["compressor", "saw", "grinder"]},
    ],
    "conditions": {"place": "open_air", "wet": False, "ambient": "10..30 degC"},
    "code_basis": ["osha-1926", "nec-2023"],
}


def decoded(raw: dict[str, Any]) -> LoadCheckRequest:
    return msgspec.json.decode(json.dumps(raw).encode(), type=LoadCheckRequest)


@pytest.mark.parametrize("raw", [SMALLEST, TWO_PEOPLE], ids=["smallest", "two-people"])
def test_sound_requests_have_no_faults(raw: dict[str, Any]) -> None:
    site, faults = read_site(decoded(raw))
    assert faults == ()
    assert validate(site) == ()


def test_figures_arrive_in_si() -> None:
    site, _ = read_site(decoded(TWO_PEOPLE))
    assert site.cords[1].length_m is not None
    assert site.cords[1].length_m.typical == pytest.approx(30.48)  # 100 international feet, NIST SP 811
    assert site.source.reset is not None
    assert site.source.reset.after_s is not None
    assert (site.source.reset.after_s.low, site.source.reset.after_s.high) == (3.0, 8.0)
    assert site.connections is not None
    assert [one.pointer for one in site.connections] == [f"/connections/{i}" for i in range(5)]
    assert site.wet is False
    assert site.code_basis == ("osha-1926", "nec-2023")


def test_what_is_not_said_is_unknown_and_not_empty() -> None:
    site, _ = read_site(decoded({"source": {"kind": "site_supply", "voltage": "230 V"}}))
    assert (site.source.limits, site.source.circuits, site.source.receptacles) == (None, None, None)
    assert (site.connections, site.cases, site.people, site.wet, site.code_basis) == (None,) * 5
    said, _ = read_site(
        decoded(
            {
                "source": {"kind": "site_supply", "voltage": "230 V", "limits": [], "receptacles": []},
                "connections": [],
                "code_basis": [],
            }
        )
    )
    assert (said.source.limits, said.source.receptacles, said.connections, said.code_basis) == ((), (), (), ())


def test_all_faults_come_at_once_with_their_places() -> None:
    raw = {
        "source": {
            "kind": "engine_generator",
            "voltage": "120v",
            "running": "5500",
            "limits": [{"id": "set", "continuous": "4 kVa", "tiers": [{"amount": "5 V", "lasts": "3"}]}],
            "circuits": [{"id": "C1", "device": {"kind": "breaker", "rating": "20 V"}}],
            "receptacles": [{"id": "R1", "type": "NEMA 5-20", "marked": "15"}, {"id": "R2", "type": "5-15P"}],
            "availability": [{"when": "load_below", "at": "20 %", "works": False}],
        },
        "tools": [
            {
                "id": "saw",
                "load_class": "circular saw",
                "shaft_power": "1-1/2 hp",
                "supply_options": [
                    {"voltage": "115/230 V", "current": "16/8 A", "plug": "5-15R"},
                    {"voltage": "120 V", "load_states": [{"id": "heavy", "power_factor": 0.0, "power": "1 kVA"}]},
                ],
                "start": {"kind": "measured", "peak": "75", "at": "118"},
            }
        ],
        "cords": [
            {
                "id": "reel",
                "size": "12/3",
                "length": "0 ft",
                "type": "SJTX",
                "outlets": {"type": "5-15P", "rating": "15"},
            }
        ],
        "conditions": {"ambient": "77 F"},
        "code_basis": ["nec-2023", "NEC 2023", "nec-2023"],
    }
    _, faults = read_site(decoded(raw))
    assert {fault.pointer: (fault.code, fault.did_you_mean) for fault in faults} == {
        "/source/voltage": ("not_a_supply", "120 V"),
        "/source/running": ("unit_missing", None),
        "/source/limits/0/continuous": ("not_a_quantity", "4 kVA"),
        "/source/limits/0/tiers/0/amount": ("wrong_unit", None),
        "/source/limits/0/tiers/0/lasts": ("unit_missing", None),
        "/source/circuits/0/device/rating": ("wrong_unit", None),
        "/source/receptacles/0/type": ("unknown_receptacle_type", "5-20R"),
        "/source/receptacles/0/marked": ("unit_missing", None),
        "/source/receptacles/1/type": ("plug_where_receptacle_belongs", "5-15R"),
        "/source/availability/0/at": ("not_a_quantity", None),
        "/tools/0/load_class": ("unknown_load_class", "circular_saw"),
        "/tools/0/shaft_power": ("fraction", "1.5 hp"),
        "/tools/0/supply_options/0/voltage": ("dual_voltage", "115 V"),
        "/tools/0/supply_options/0/current": ("two_figures", None),
        "/tools/0/supply_options/0/plug": ("receptacle_where_plug_belongs", "5-15P"),
        "/tools/0/supply_options/1/load_states/0/power_factor": ("not_above_zero", None),
        "/tools/0/supply_options/1/load_states/0/power": ("wrong_unit", None),
        "/tools/0/start/peak": ("unit_missing", None),
        "/tools/0/start/at": ("unit_missing", "118 V"),
        "/cords/0/size": ("not_a_size", "12 AWG"),
        "/cords/0/length": ("not_above_zero", None),
        "/cords/0/type": ("unknown_cord_type", "SJT"),
        "/cords/0/outlets/type": ("plug_where_receptacle_belongs", "5-15R"),
        "/cords/0/outlets/rating": ("unit_missing", None),
        "/conditions/ambient": ("not_a_quantity", "77 degF"),
        "/code_basis/1": ("unknown_code_basis", "nec-2023"),
        "/code_basis/2": ("repeated_member", None),
    }


@pytest.mark.parametrize(
    ("text", "place", "hint"),
    [
        ("5-20", "receptacle", "5-20R"),
        ("nema 5-20r", "receptacle", "5-20R"),
        ("5-20P", "receptacle", "5-20R"),
        ("L5-30", "receptacle", "L5-30R"),
        ("L5-30", "plug", "L5-30P"),
        ("5-20R", "plug", "5-20P"),
        ("TT-30", "receptacle", "TT-30R"),
        ("CEE 7/4", "receptacle", "CEE 7/3"),
        ("CEE 7/3", "plug", "CEE 7/4"),
        ("cee 7/17", "plug", "CEE 7/17"),
        ("IEC 60309 16A 2P+E blue", "receptacle", "IEC 60309 16 A 2P+E blue"),
        ("15 A", "receptacle", None),
        ("\x00", "plug", None),
        ("x" * 32, "plug", None),
    ],
)
def test_plugs_and_receptacles_by_their_designation(text: str, place: str, hint: str | None) -> None:
    raw: dict[str, Any] = {"source": {"kind": "vehicle", "voltage": "120 V"}}
    if place == "plug":
        raw["cords"] = [{"id": "long", "plug": text}]
    else:
        raw["source"]["receptacles"] = [{"id": "R1", "type": text}]
    _, faults = read_site(decoded(raw))
    assert [fault.did_you_mean for fault in faults] == [hint]
    assert faults[0].message.isprintable()


def test_designations_are_kept_as_their_standard_writes_them() -> None:
    raw = {
        "source": {
            "kind": "site_supply",
            "voltage": "230 V",
            "receptacles": [
                {"id": "R1", "type": "NEMA 5-20R"},
                {"id": "R2", "type": "IEC 60309 16 A blue"},
                {"id": "R3", "type": "BS 1363"},
            ],
        }
    }
    site, faults = read_site(decoded(raw))
    assert faults == ()
    assert [one.type for one in site.source.receptacles or ()] == ["5-20R", "IEC 60309 16 A 2P+E blue", "BS 1363"]


def test_ten_kilometres_of_cord_are_read_and_judged_elsewhere() -> None:
    site, faults = read_site(
        decoded({"source": {"kind": "vehicle", "voltage": "120 V"}, "cords": [{"id": "c", "length": "10000 m"}]})
    )
    assert faults == ()
    assert site.cords[0].length_m is not None


LEGS = [
    # both line contacts fed in phase: stated, never assumed
    ("120/240 V", [("L1", "0 deg"), ("L2", "0 deg")], "split_phase", None),
    ("120 V", [("L1", "0 deg"), ("L2", "0 deg")], "split_phase", None),
    # two legs of a three-phase network
    ("208Y/120 V", [("L1", "0 deg"), ("L2", "120 deg")], "three_phase", None),
    ("120 V", [("L1", "0 deg"), ("L2", "180 deg")], "single", "legs_contradict_voltage"),
    ("120/240 V", [("L1", "0 deg")], "split_phase", "legs_contradict_voltage"),
    ("120/240 V", [("L1", "0 deg"), ("L3", "180 deg")], "split_phase", "legs_contradict_voltage"),
    ("48 V DC", [("L1", "0 deg"), ("L2", "0 deg")], "dc", "legs_contradict_voltage"),
]


@pytest.mark.parametrize(("voltage", "legs", "kind", "code"), LEGS)
def test_legs_beside_a_voltage(voltage: str, legs: list[tuple[str, str]], kind: str, code: str | None) -> None:
    raw = {
        "source": {
            "kind": "vehicle",
            "voltage": voltage,
            "legs": [{"id": name, "angle": angle} for name, angle in legs],
        }
    }
    site, faults = read_site(decoded(raw))
    assert site.source.supply.kind == kind
    assert [fault.code for fault in faults] == ([] if code is None else [code])
    if code is None:
        assert len(site.source.supply.angles_rad) == len(legs)


def test_a_hostile_request_is_refused_in_bounded_time_and_length() -> None:
    raw = {
        "source": {"kind": "vehicle", "voltage": "120 V"},
        "tools": [
            {
                "id": f"t{i}",
                "load_class": "abcdefgh" * 8,
                "supply_options": [{"voltage": "1", "plug": "abcdefgh" * 4, "current": "1" * 40}] * 8,
            }
            for i in range(500)
        ],
    }
    _, faults = read_site(decoded(raw))
    assert len(faults) == 100


@pytest.mark.parametrize(
    "body",
    [
        b'{"source": {"kind": "vehicle", "voltage": "120 V"}, "people": NaN}',
        b'{"source": {"kind": "vehicle", "voltage": 120}}',
        b'{"source": {"kind": "vehicle", "voltage": null}}',
        b'{"source": {"kind": "vehicle", "voltage": "120 V", "tank": "3 l"}}',
        b'{"source": {"kind": "bicycle", "voltage": "120 V"}}',
        b'{"source": {"voltage": "120 V"}}',
        b'{"source": {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1", "breaker": "20 A"}]}}',
        b'{"source": {"kind": "vehicle", "voltage": "120 V"}, "tools": [{"id": "saw", "swich": "always_on"}]}',
        b'{"source": {"kind": "vehicle", "voltage": "120 V"}, "tools": [{"id": "saw\\n"}]}',
    ],
)
def test_what_has_no_such_shape_does_not_decode(body: bytes) -> None:
    with pytest.raises(msgspec.MsgspecError):
        msgspec.json.decode(body, type=LoadCheckRequest)
