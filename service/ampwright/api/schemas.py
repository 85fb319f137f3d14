"""What do the Structs look like as schemas of the document?

msgspec draws the components (docstrings, bounds, patterns, ``additionalProperties: false`` where a Struct forbids
unknown members). Three things it leaves out are put back: the order in which enumerations are declared, ``type`` and
``const`` where there is one value, and the names of tagged unions, which it writes out wherever they stand.
"""

from __future__ import annotations

import importlib
import pkgutil
import types
import typing
from collections.abc import Iterable, Mapping
from enum import Enum
from typing import Any, Literal

import msgspec
from msgspec import Struct, inspect

REF = "#/components/schemas/"
Schema = dict[str, Any]


def named_unions(package: types.ModuleType) -> dict[str, Any]:
    """Unions of tagged Structs that have a name in the modules of a package: ``PowerSource = Vehicle | ...``."""
    found: dict[str, Any] = {}
    modules = [package]
    if hasattr(package, "__path__"):
        modules += [
            importlib.import_module(one.name) for one in pkgutil.walk_packages(package.__path__, package.__name__ + ".")
        ]
    for module in modules:
        for name, value in sorted(vars(module).items()):
            if not name.startswith("_") and len(_tagged_members(value)) > 1:
                found.setdefault(name, value)
    return found


def components(kinds: Iterable[Any], unions: Mapping[str, Any]) -> tuple[list[Schema], dict[str, Schema]]:
    """Schemas of the types, and the components that they refer to, sorted by name.

    unions : by name, as ``named_unions`` finds them; those that no type uses are left out.
    """
    wanted = list(kinds)
    drawn, found = msgspec.json.schema_components(wanted, ref_template=REF + "{name}")
    structs, enums = _reached(wanted)
    by_members = {
        frozenset(REF + member.__name__ for member in _tagged_members(union)): name
        for name, union in sorted(unions.items())
    }
    hoisted: dict[str, Schema] = {}
    result: dict[str, Schema] = {}
    for name, schema in found.items():
        if name in enums:
            schema["enum"] = [member.value for member in enums[name]]
        orders = _literal_orders(structs[name]) if name in structs else {}
        result[name] = _repair(schema, orders, by_members, hoisted)
    repaired = [_repair(schema, {}, by_members, hoisted) for schema in drawn]
    clash = sorted(set(hoisted) & set(result))
    if clash:
        raise ValueError(f"a union and a Struct share a name: {', '.join(clash)}")
    return repaired, dict(sorted((result | hoisted).items()))


def _tagged_members(value: Any) -> tuple[type[Struct], ...]:
    if typing.get_origin(value) not in (types.UnionType, typing.Union):
        return ()
    members = typing.get_args(value)
    tagged = all(isinstance(one, type) and issubclass(one, Struct) and one.__struct_config__.tag for one in members)
    return members if tagged else ()


def _reached(kinds: list[Any]) -> tuple[dict[str, type[Struct]], dict[str, type[Enum]]]:
    """Structs and enumerations that the types lead to, by name."""
    structs: dict[str, type[Struct]] = {}
    enums: dict[str, type[Enum]] = {}

    def walk(kind: inspect.Type) -> None:
        match kind:
            case inspect.StructType():
                if kind.cls.__name__ not in structs:
                    structs[kind.cls.__name__] = kind.cls
                    for field in kind.fields:
                        walk(field.type)
            case inspect.EnumType():
                enums[kind.cls.__name__] = kind.cls
            case inspect.Metadata():
                walk(kind.type)
            case inspect.UnionType():
                for one in kind.types:
                    walk(one)
            case inspect.ListType() | inspect.VarTupleType() | inspect.SetType() | inspect.FrozenSetType():
                walk(kind.item_type)
            case inspect.TupleType():
                for one in kind.item_types:
                    walk(one)
            case inspect.DictType():
                walk(kind.value_type)
            case _:
                pass

    for kind in inspect.multi_type_info(kinds):
        walk(kind)
    return structs, enums


def _literal_orders(struct: type[Struct]) -> dict[frozenset[Any], list[Any]]:
    """Literals of the fields, by their set of values: msgspec sorts them, the declaration's order reads better."""
    orders: dict[frozenset[Any], list[Any]] = {}

    def walk(annotation: Any) -> None:
        if typing.get_origin(annotation) is Literal:
            values = list(typing.get_args(annotation))
            orders.setdefault(frozenset(values), values)
        for one in typing.get_args(annotation):
            walk(one)

    for annotation in typing.get_type_hints(struct, include_extras=True).values():
        walk(annotation)
    return orders


def _repair(
    node: Any,
    orders: Mapping[frozenset[Any], list[Any]],
    by_members: Mapping[frozenset[str], str],
    hoisted: dict[str, Schema],
) -> Any:
    if isinstance(node, list):
        return [_repair(one, orders, by_members, hoisted) for one in node]
    if not isinstance(node, dict):
        return node
    # "default" and "examples" hold values, not schemas.
    schema = {
        key: value if key in ("default", "examples", "enum", "const") else _repair(value, orders, by_members, hoisted)
        for key, value in node.items()
    }
    if isinstance(schema.get("enum"), list):
        schema = _with_typed_values(schema, orders)
    if "discriminator" in schema and "anyOf" in schema:
        schema = _with_named_union(schema, by_members, hoisted)
    return schema


def _with_typed_values(schema: Schema, orders: Mapping[frozenset[Any], list[Any]]) -> Schema:
    values = orders.get(frozenset(schema["enum"]), schema["enum"])
    rest = {key: value for key, value in schema.items() if key not in ("enum", "type")}
    typed: Schema = {}
    if all(isinstance(value, str) for value in values):
        typed["type"] = "string"
    elif all(isinstance(value, int) and not isinstance(value, bool) for value in values):
        typed["type"] = "integer"
    # A Struct's tag and a Literal of one value; an enumeration of one may grow.
    one_only = len(values) == 1 and "title" not in schema
    return rest | typed | ({"const": values[0]} if one_only else {"enum": values})


def _with_named_union(schema: Schema, by_members: Mapping[frozenset[str], str], hoisted: dict[str, Schema]) -> Schema:
    members = schema["anyOf"]
    union = {"oneOf": members, "discriminator": schema["discriminator"]}
    rest = {key: value for key, value in schema.items() if key not in ("anyOf", "discriminator")}
    name = by_members.get(frozenset(one.get("$ref", "") for one in members))
    if name is None:
        return rest | union
    hoisted[name] = {"title": name} | union
    return rest | {"$ref": REF + name}
