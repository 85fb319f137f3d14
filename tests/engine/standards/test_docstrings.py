"""Does every public function of the tables say its unit and its source?

A docstring names each argument that carries a unit in its name, and a figure that is returned has its unit in brackets.
"""

import importlib
import inspect
import pkgutil
import re

import pytest
from ampwright.engine import standards

MODULES = sorted(module.name for module in pkgutil.iter_modules(standards.__path__))
UNITS = re.compile(r"_(a|v|w|m|m2|c|s|hz|ohm|ohm_per_m|ratio|pa|k|hp|ft|per_w)$")
PLUMBING = {"loader", "citations"}


def public_functions():
    for name in MODULES:
        module = importlib.import_module(f"{standards.__name__}.{name}")
        for attribute, found in sorted(vars(module).items()):
            found = inspect.unwrap(found) if callable(found) else found
            if inspect.isfunction(found) and found.__module__ == module.__name__ and not attribute.startswith("_"):
                yield pytest.param(name, found, id=f"{name}.{attribute}")


@pytest.mark.parametrize(("module", "function"), list(public_functions()))
def test_function_is_documented(module, function):
    text = inspect.getdoc(function) or ""
    assert text
    if module in PLUMBING:
        return
    assert "Source:" in text
    returned = str(inspect.signature(function).return_annotation)
    if re.search(r"\bfloat\b|CitedValue|\bRange\b|GuideRange", returned):
        assert re.search(r"\[[^\]]+\]", text) or text.startswith(("1 where", "Horsepower")), "no unit"
    for name in inspect.signature(function).parameters:
        if UNITS.search(name):
            quantity = name.rsplit("_", 1)[0].split("_")[-1]
            assert name in text or re.search(r"\[[^\]]+\]", text), f"{name} has no unit in the docstring"
            assert name in text or quantity in text or quantity in function.__name__, f"{name} is not spoken of"


@pytest.mark.parametrize("name", MODULES)
def test_module_asks_its_question(name):
    module = importlib.import_module(f"{standards.__name__}.{name}")
    assert module.__doc__.splitlines()[0].endswith("?")
    assert len(inspect.getsource(module).splitlines()) < 400
