"""Is every fault code that can come out explained, and does every explained code come out?"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import ampwright
from ampwright.contract.fault_codes import FAULT_CODES

HOUSE = Path(ampwright.__file__).parent
PLACES = [
    *sorted((HOUSE / "contract").glob("*.py")),
    *sorted((HOUSE / "engine" / "site").glob("validation*.py")),
    *sorted((HOUSE / "engine" / "calculations").rglob("*.py")),
    *sorted((HOUSE / "studies").glob("*.py")),
]
# where the code stands among the arguments of what makes a fault
POSITIONS = {"Fault": 1, "QuantityFault": 0, "fault": 1, "_fault": 1, "listed": 3, "SheetFault": 2, "_named": 4}


def codes_made() -> Iterator[str]:
    for place in PLACES:
        for node in ast.walk(ast.parse(place.read_text("utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            position = POSITIONS.get(name)
            if position is None or len(node.args) <= position:
                continue
            code = node.args[position]
            if isinstance(code, ast.Constant) and isinstance(code.value, str):
                yield code.value
            elif isinstance(code, ast.JoinedStr):  # f"unknown_{role}_type"
                pattern = "".join(
                    str(part.value) if isinstance(part, ast.Constant) else "(?:plug|receptacle)" for part in code.values
                )
                yield from (known for known in FAULT_CODES if re.fullmatch(pattern, known))
            elif isinstance(code, ast.IfExp | ast.Name):
                yield from ("repeated_id", "ambiguous_id")


def test_every_code_is_explained_and_used() -> None:
    assert set(codes_made()) == set(FAULT_CODES)


def test_codes_and_explanations_are_stable_words() -> None:
    for code, says in FAULT_CODES.items():
        assert re.fullmatch(r"[a-z][a-z_]+[a-z]", code)
        assert says.endswith(".")
