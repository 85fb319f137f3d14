"""Which clause asks for this, in the jurisdiction and edition that apply here?

A code basis is one layer: "osha-1926" (always on construction sites in the United States), "nec-2017", "nec-2020",
"nec-2023" (as adopted), "iec-60364" alone or with a country ("iec-60364-de"), "bs-7671". Clauses are looked up per
edition: the same rule moves between editions. What a clause asks is told in our own words; its own text governs.
Not here: whether a site meets it (calculations); the ground-fault demands by rating (ground_fault_rules.py).
"""

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from ampwright.engine.standards.citations import Basis
from ampwright.engine.standards.loader import citations, least_sure, table

RULES = MappingProxyType(
    {
        "assured_grounding_program": "What may a site do instead of ground-fault protection?",
        "automatic_restart": "May an overload device restart a motor by itself?",
        "carbon_monoxide": "How much carbon monoxide may people breathe?",
        "code_scope": "Does the code cover this source at all?",
        "continuous_load": "How much may a load of 3 h and more take of a circuit?",
        "cord_ampacity": "What may cord conductors carry?",
        "cord_condition": "May a worn cord be used?",
        "cord_protection": "Does the breaker protect the cord?",
        "cord_splice": "May a cord be spliced?",
        "cord_through_door": "May a cord pass a door or pinch point?",
        "cord_usage_type": "Which cord types belong on a site?",
        "disconnection_time": "How fast must a fault to earth be cut off?",
        "equipment_grounding_conductor": "Must the tool and its cord have a grounding conductor?",
        "extension_set_is_branch_wiring": "What is an extension cord in the eyes of the law?",
        "fixed_appliance_share": "How much may fastened appliances take of a shared circuit?",
        "ground_fault_any_socket": "Does any socket need a residual current device?",
        "ground_fault_exemption": "Which small sets need no ground-fault protection?",
        "ground_fault_larger": "What protects outlets above 32 A?",
        "ground_fault_mobile_unit": "What protects outlets of a vehicle used outside it?",
        "ground_fault_on_sets": "What protects the outlets of an engine set?",
        "ground_fault_other_receptacles": "What protects all other temporary receptacles?",
        "ground_fault_protection": "Which outlets on a site need ground-fault protection?",
        "lights_and_receptacles": "May lights and receptacles share a circuit?",
        "load_on_one_receptacle": "How much may one plug take on a shared circuit?",
        "neutral_bond": "Must the neutral be bonded to the frame?",
        "one_appliance_share": "How much may one portable appliance take of a shared circuit?",
        "overload_coordination": "How do load, device and conductor fit together?",
        "power_return_restart": "May a machine start by itself when power returns?",
        "receptacle_rating": "Which receptacles may stand on this circuit?",
        "reduced_low_voltage": "Which voltage should hand tools on a site have?",
        "set_earthing": "Does an engine set need an earth electrode?",
        "set_receptacles": "How are receptacles of sets to 15 kW protected?",
        "site_socket_type": "Which socket-outlets belong on a site?",
        "supplementary_protector": "Does a supplementary protector protect a circuit?",
        "switch_kind": "Which kind of switch may this tool have?",
        "tool_restart": "Which hand tools must be switched on again after an interruption?",
        "transfer_equipment": "How may a source feed fixed wiring?",
        "vehicle_export": "What may the outlets of an electric vehicle be?",
        "vehicle_mounted_earthing": "How is a set on a vehicle earthed?",
        "voltage_drop": "How much drop is recommended?",
        "welder_conductor": "Which conductor does a welder need?",
        "welder_device": "Which device may protect a welder's circuit?",
        "wet_location_covers": "Which covers do outdoor receptacles need?",
        "wet_location_lamps": "Which lamps may be used in the wet?",
    }
)
"""Every rule code with the question it answers."""

_IEC = "iec-60364"
_COUNTRIES = "countries_iec-60364"


@dataclass(frozen=True, slots=True)
class CodeBasis:
    """One layer of rules.

    key : as a request names it. document, edition : what it is. country : ISO 3166 code, empty when it names none.
    decides : whether it can settle a question alone; IEC 60364 without a country cannot.
    note : what else applies there, empty when nothing is known.
    """

    key: str
    document: str
    edition: str
    country: str
    decides: bool
    note: str
    table: str


@dataclass(frozen=True, slots=True)
class UnknownCodeBasis:
    """No layer has this key; `known` lists those there are."""

    key: str
    known: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Clause:
    """What one layer asks.

    rule : code, one of RULES. code_basis : layer. document, place : where it stands. asks : in our own words.
    status : how sure, see loader.STATUSES. reference : id of the reference value it agrees with, or empty.
    """

    rule: str
    code_basis: str
    document: str
    place: str
    asks: str
    edition: str
    status: str

    def basis(self) -> Basis:
        """The line of an answer's basis. Source: this clause."""
        return Basis(f"{self.code_basis}/{self.rule}", self.document, self.place, self.edition, self.status)


@cache
def _layers() -> MappingProxyType[str, CodeBasis]:
    found: dict[str, CodeBasis] = {}
    for key in ("osha-1926", "nec-2017", "nec-2020", "nec-2023", _IEC, "bs-7671"):
        cited = citations()[f"clauses_{key}"]
        country = {"o": "US", "n": "US", "b": "GB"}.get(key[0], "")
        note = "a country decides" if key == _IEC else ""
        found[key] = CodeBasis(key, cited.document, cited.edition, country, key != _IEC, note, f"clauses_{key}")
    for row in table(_COUNTRIES):
        country = row.text("country")
        if country == "GB":
            continue  # it has a layer of its own
        key = f"{_IEC}-{country.lower()}"
        found[key] = CodeBasis(key, row.text("document"), "any", country, True, row.text("note"), f"clauses_{_IEC}")
    return MappingProxyType(found)


def code_bases() -> tuple[str, ...]:
    """Keys of all layers. Source: citations.toml, table of countries."""
    return tuple(_layers())


def code_basis(key: str) -> CodeBasis | UnknownCodeBasis:
    """The layer with this key, or what is known instead. Source: citations.toml, table of countries."""
    return _layers().get(key) or UnknownCodeBasis(key, code_bases())


def clause(rule: str, key: str) -> Clause | UnknownCodeBasis | None:
    """What a layer asks by a rule; None when that edition has no such clause. Source: the clause tables.

    Errors: KeyError for a rule code that is none (RULES lists them): a part of the program names it.
    """
    layer = code_basis(key)
    if isinstance(layer, UnknownCodeBasis):
        return layer
    if rule not in RULES:
        raise KeyError(rule)
    row = table(layer.table).find(rule=rule)
    if row is None:
        return None
    # What a country made of the international text was not read: its clauses are remembered at best.
    status = least_sure(row.status, "memory") if layer.country and layer.table == f"clauses_{_IEC}" else row.status
    return Clause(rule, key, row.text("document"), row.text("place"), row.text("asks"), layer.edition, status)


def clauses(rule: str, keys: tuple[str, ...]) -> tuple[Clause, ...]:
    """What each of some known layers asks by a rule, in their order; layers without such a clause are left out.

    Errors: ValueError for a layer that is none; validate with `code_basis` first. Source: the clause tables.
    """
    found: list[Clause] = []
    for key in keys:
        asked = clause(rule, key)
        if isinstance(asked, UnknownCodeBasis):
            raise ValueError(f"no code basis {key}; there are {', '.join(asked.known)}")
        if asked is not None:
            found.append(asked)
    return tuple(found)


def clauses_of(key: str) -> tuple[Clause, ...]:
    """Every clause of a layer, by rule code; empty for an unknown one. Source: the clause tables."""
    if isinstance(code_basis(key), UnknownCodeBasis):
        return ()
    return tuple(asked for rule in sorted(RULES) for asked in clauses(rule, (key,)))
