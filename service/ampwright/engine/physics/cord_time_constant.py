"""How quickly does a flexible cord follow its heating current: what is its time constant?

    tau = C / (loss per kelvin)
    loss per kelvin = n_loaded * I_rated^2 * R(rated copper) / (rated copper - rated ambient)

C is what is taken to warm up together, per metre of cord, and that is the assumption: with the copper alone tau is
the shortest it can be (right for seconds, safe always), with copper, insulation, jacket and filler it is the longest
(right for minutes). `COPPER_ALONE` and `WHOLE_CORD` name the two ends; an answer shows both, the earliest is the safe
one.

Volumetric heats: IEC 60853-2 / IEC 60949 print 3.45 MJ/(m3 K) for copper and 1.7 for PVC, 2.0 for EPR and rubber
compounds (all three from memory). Wall thicknesses, where a cord's outside diameter is not known: hard-service
"junior" cord has 0.76 mm of insulation and 0.76 mm of jacket to 12 AWG (NFPA 70 table 400.4 and UL 62, from memory).
A measured outside diameter is always better.
"""

import math

from ampwright.engine.physics.compile import kernel

COPPER_HEAT_J_PER_M3_K = 3.45e6
"""Volumetric heat of copper [J/(m3 K)]. Source: IEC 60949 table I, from memory (density x specific heat: 3.44e6)."""

PVC_HEAT_J_PER_M3_K = 1.7e6
"""Volumetric heat of PVC compounds [J/(m3 K)]. Source: IEC 60853-2 annex, from memory."""

RUBBER_HEAT_J_PER_M3_K = 2.0e6
"""Volumetric heat of EPR and rubber compounds [J/(m3 K)]. Source: IEC 60853-2 annex, from memory."""

COPPER_ALONE = 0.0
"""Share of the polymer that warms with the copper: none, the earliest end of the band."""
WHOLE_CORD = 1.0
"""Share of the polymer that warms with the copper: all, the latest end of the band."""

# Bundle over core diameter for circles packed round; geometry, sqrt forms for 3 (1 + 2/sqrt 3) and 4 (1 + sqrt 2).
_BUNDLE_RATIO = (0.0, 1.0, 2.0, 1.0 + 2.0 / math.sqrt(3.0), 1.0 + math.sqrt(2.0), 2.7013)

# A round bundle of strands encloses air: area of copper over area of its circle, 7 or 19 strands in rope or bunch lay.
_STRAND_FILL = 0.75


def outside_diameter_m(
    conductor_area_m2: float, conductors: int, insulation_thickness_m: float, jacket_thickness_m: float
) -> float:
    """About how thick is a round cord?

    Parameters
    ----------
    conductor_area_m2 : [m2], > 0, copper of one conductor
    conductors : count, 1 to 5, protective conductor included
    insulation_thickness_m : [m], > 0, of one conductor
    jacket_thickness_m : [m], > 0

    Returns
    -------
    diameter_m : [m]

    Errors: ValueError for more than five or no conductors.
    Source: geometry (circles packed in a circle); strand fill of 0.75 is common practice, no source.
    """
    if not 1 <= conductors <= 5:
        raise ValueError(f"a cord of {conductors} conductors: 1 to 5 are known")
    strand_m = math.sqrt(4.0 * conductor_area_m2 / (math.pi * _STRAND_FILL))
    return _BUNDLE_RATIO[conductors] * (strand_m + 2.0 * insulation_thickness_m) + 2.0 * jacket_thickness_m


@kernel("float64(float64, int64, float64, float64, float64)")
def heat_capacity_j_per_m_k(
    conductor_area_m2: float, conductors: int, diameter_m: float, polymer_heat_j_per_m3_k: float, polymer_share: float
) -> float:
    """How much heat warms a metre of cord by one kelvin?

    Parameters
    ----------
    conductor_area_m2 : [m2], > 0, copper of one conductor
    conductors : count, >= 1: all of them for the whole cord, the loaded ones alone for the earliest end of the band
    diameter_m : [m], outside the jacket
    polymer_heat_j_per_m3_k : [J/(m3 K)], of insulation, jacket and filler
    polymer_share : [-], COPPER_ALONE to WHOLE_CORD

    Returns
    -------
    capacity_j_per_m_k : [J/(m K)]; a diameter too small for its copper counts as no polymer

    Errors: none. NaN in, NaN out.
    Source: sum of volumes times volumetric heats (IEC 60853-2 and IEC 60949 values are the module's constants).
    """
    copper_m2 = conductors * conductor_area_m2
    polymer_m2 = 0.25 * math.pi * diameter_m * diameter_m - copper_m2
    polymer_m2 = max(polymer_m2, 0.0)
    return copper_m2 * COPPER_HEAT_J_PER_M3_K + polymer_share * polymer_m2 * polymer_heat_j_per_m3_k


@kernel("float64(float64, int64, float64, float64, float64, float64)")
def time_constant_s(
    capacity_j_per_m_k: float,
    rated_conductors: int,
    rated_current_a: float,
    resistance_ohm_per_m: float,
    rated_ambient_c: float,
    rated_copper_c: float,
) -> float:
    """How quickly does a cord laid straight follow its heating current?

    Parameters
    ----------
    capacity_j_per_m_k : [J/(m K)], > 0, of what warms together
    rated_conductors : count of loaded conductors of the ampacity column, >= 1
    rated_current_a : [A], > 0, that column's ampacity
    resistance_ohm_per_m : [ohm/m], > 0, one conductor at the rated copper temperature
    rated_ambient_c : [C]
    rated_copper_c : [C], above `rated_ambient_c`

    Returns
    -------
    time_constant_s : [s], laid straight; wound, divide by the square of the lay factor

    Errors: none. NaN in, NaN out.
    Source: heat balance at rated current, the calibration of cord_heating.py.
    """
    heat_w_per_m = rated_conductors * rated_current_a * rated_current_a * resistance_ohm_per_m
    return capacity_j_per_m_k * (rated_copper_c - rated_ambient_c) / heat_w_per_m
