"""Which columns does a spreadsheet of the fleet have, and which member of a document does each stand for?

One row for every supply option of a tool, every receptacle of a source, every item of a kit; a cord and a unit are one
row. What belongs to the whole entry stands in its first row and may stand in the others. A figure is one cell with its
unit, as in JSON.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

CellKind = Literal["text", "integer", "ratio", "yes_no"]
ENTRY, REVISION, STATUS, NOT_SHOWN = "entry", "revision", "status", "not_shown"
ITEM = "*"  # the item of a list that a row stands for
_KEYED = "#"  # `#working`: the item of a list with that id


@dataclass(frozen=True, slots=True)
class Column:
    """One column. path : steps into the document, `*` for the row's own item, `#working` for the item of that id."""

    name: str
    path: tuple[str, ...]
    example: str
    kind: CellKind = "text"

    @property
    def group(self) -> str | None:
        """The list whose items the rows are, None for what belongs to the whole entry."""
        return self.path[0] if len(self.path) > 1 and self.path[1] == ITEM else None


@dataclass(frozen=True, slots=True)
class Sheet:
    """The columns of one kind of document, beside `entry`, `revision`, `status` and `not_shown`."""

    kind: str
    columns: tuple[Column, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """Names of all columns in their order."""
        return (ENTRY, REVISION, STATUS, *(column.name for column in self.columns), NOT_SHOWN)


OWN_COLUMNS = {
    ENTRY: ("Key of the entry; rows of one entry belong together.", "circular-saw-185mm"),
    REVISION: ("Newest revision when the sheet was made; where it is another by now, the row is refused.", "3"),
    STATUS: ("approved or draft; left out it is approved.", "approved"),
    NOT_SHOWN: ("Members that have no column here; they stay as they are, and the cell is not read.", "provenance"),
}


def is_keyed(step: str) -> str | None:
    """The id of `#working`; None for another step."""
    return step[1:] if step.startswith(_KEYED) else None


def _plain(example: dict[str, str], kind: CellKind = "text") -> Iterator[Column]:
    for name, shown in example.items():
        yield Column(name, (name,), shown, kind)


def _item(group: str, prefix: str, members: dict[str, tuple[str, str]], kind: CellKind = "text") -> Iterator[Column]:
    for member, (name, shown) in members.items():
        yield Column(f"{prefix}{name}", (group, ITEM, *member.split(".")), shown, kind)


_NAMED = {"name": "circular saw, 185 mm", "origin": "nameplate"}

_OF_A_STATE: tuple[tuple[str, str, CellKind], ...] = (
    ("power", "950..1120..1300 W", "text"),
    ("current", "10 A", "text"),
    ("power_factor", "0.97", "ratio"),
)

_TOOLS = Sheet(
    "tool-profile",
    (
        *_plain(_NAMED),
        *_plain({"load_class": "circular_saw", "shaft_power": "1.5 hp", "switch": "constant_pressure"}),
        *_plain({"control": "none", "operated": "by_hand", "lowest_voltage": "104 V", "sensitivity": "low"}),
        *_plain({"leakage": "0.5 mA", "insulation": "class_ii", "motor_protector": "resets_by_itself"}),
        *_plain({"restart_protection": "no"}, "yes_no"),
        Column("option", ("supply_options", ITEM, "id"), "us"),
        *_item(
            "supply_options",
            "",
            {
                "voltage": ("voltage", "120 V"),
                "plug": ("plug", "5-15P"),
                "current": ("current", "15 A"),
                "power": ("power", "1200 W"),
                "apparent_power": ("apparent_power", "1500 VA"),
                "effective_current": ("effective_current", "11 A"),
                "output": ("output", "140 A"),
            },
        ),
        Column("phases", ("supply_options", ITEM, "phases"), "1", "integer"),
        *(
            Column(f"{state}_{member}", ("load_states", f"#{state}", member), shown, kind)
            for state in ("idle", "working", "heavy")
            for member, shown, kind in _OF_A_STATE
        ),
        *(
            Column(f"start_{member}", ("start", member), shown)
            for member, shown in (
                ("kind", "induction_motor"),
                ("motor", "capacitor_start"),
                ("code_letter", "J"),
                ("locked_rotor", "90 A"),
                ("against", "head_pressure"),
                ("peak", "75 A"),
                ("lasts", "0.6 s"),
                ("cold_current", "40 A"),
            )
        ),
        Column("start_soft_start", ("start", "soft_start"), "yes", "yes_no"),
        Column("start_corrected", ("start", "corrected"), "yes", "yes_no"),
    ),
)

_SOURCES = Sheet(
    "power-source",
    (
        *_plain({"kind": "vehicle", "name": "panel van", "origin": "nameplate", "voltage": "120/240 V"}),
        *_plain({"waveform": "sine", "neutral_bond": "floating", "resistance": "0.1 ohm", "battery": "68 kWh"}),
        *_plain(
            {
                "awake_draw": "150 W",
                "sleeps_below": "15 W",
                "sleeps_after": "30 min",
                "energy_per_distance": "250 Wh/km",
            }
        ),
        *_plain({"technology": "avr", "running": "5000 W", "starting": "6000 W", "transient_reactance": "0.2 pu"}),
        *_plain({"tank": "15 L", "earthing": "tn_s", "fault_current": "800 A"}),
        *(
            Column(f"reset_{member}", ("reset", member), shown)
            for member, shown in (
                ("how", "automatic"),
                ("where", "dashboard"),
                ("by", "driver"),
                ("needs", "vehicle unlocked"),
                ("after", "3..8 s"),
            )
        ),
        Column("receptacle", ("receptacles", ITEM, "id"), "R1"),
        *_item(
            "receptacles",
            "receptacle_",
            {
                "type": ("type", "5-20R"),
                "marked": ("marked", "20 A"),
                "circuit": ("circuit", "C1"),
                "location": ("location", "bed, left"),
                "ground_fault": ("ground_fault", "gfci_class_a"),
            },
        ),
        Column("circuit", ("circuits", ITEM, "id"), "C1"),
        *_item(
            "circuits",
            "circuit_",
            {
                "device.kind": ("device", "breaker"),
                "device.standard": ("standard", "ul_489"),
                "device.rating": ("rating", "20 A"),
            },
        ),
        Column("limit", ("limits", ITEM, "id"), "inverter"),
        *_item(
            "limits",
            "limit_",
            {
                "continuous": ("continuous", "4000 VA"),
                "peak": ("peak", "50 A"),
                "response": ("response", "shutdown"),
            },
        ),
    ),
)

_CORDS = Sheet(
    "cord",
    (
        *_plain({"name": "100 ft of 12 AWG", "origin": "nameplate", "length": "100 ft", "size": "12 AWG"}),
        *_plain({"conductors": "3"}, "integer"),
        *_plain({"type": "SJTW", "insulation_temperature": "60 degC", "marked": "15 A"}),
        *_plain({"plug": "5-15P", "plug_state": "good"}),
        *(
            Column(f"outlet_{member}", ("outlets", member), shown)
            for member, shown in (("type", "5-15R"), ("rating", "15 A"), ("state", "good"))
        ),
        Column("outlet_count", ("outlets", "count"), "3", "integer"),
    ),
)


def _kit_item(group: str, word: str) -> Iterator[Column]:
    yield Column(word, (group, ITEM, "id"), "saw" if word == "tool" else "long")
    yield Column(f"{word}_entry", (group, ITEM, "entry"), "circular-saw-185mm" if word == "tool" else "cord-12-100")
    yield Column(f"{word}_revision", (group, ITEM, "revision"), "1", "integer")
    yield Column(f"{word}_count", (group, ITEM, "count"), "2", "integer")


_KITS = Sheet(
    "kit",
    (
        *_plain({"name": "timber framing", "origin": "estimate"}),
        *_kit_item("tools", "tool"),
        *_kit_item("cords", "cord"),
        Column("adapter", ("adapters", ITEM, "id"), "adapter"),
        Column("adapter_plug", ("adapters", ITEM, "plug"), "5-15P"),
        Column("adapter_receptacle", ("adapters", ITEM, "receptacle"), "5-15R"),
        Column("adapter_count", ("adapters", ITEM, "count"), "1", "integer"),
    ),
)

_UNITS = Sheet(
    "source-unit",
    (
        *_plain({"name": "van number 7", "origin": "nameplate"}),
        Column("source", ("entry",), "van-panel"),
        Column("source_revision", ("revision",), "1", "integer"),
        Column("battery", ("corrections", "battery"), "62 kWh"),
        Column("running", ("corrections", "running"), "4500 W"),
        Column("starting", ("corrections", "starting"), "5500 W"),
        Column("neutral_bond", ("corrections", "neutral_bond"), "bonded"),
    ),
)

SHEETS = {sheet.kind: sheet for sheet in (_TOOLS, _SOURCES, _CORDS, _KITS, _UNITS)}
