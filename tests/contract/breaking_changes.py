"""Which differences between two OpenAPI documents would break a caller of the older one?

What a caller sends may only become freer, what a caller reads may only become surer or longer. Rules: the guide on
versions that the service itself serves. A changed pattern counts as narrower, since nothing here can tell. What an
answer gives back as it was sent (a stored document, a request) may gain words and kinds as requests may.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

Json = dict[str, Any]
LOWER_IS_STRICTER = ("maxLength", "maxItems", "maximum", "maxProperties")
HIGHER_IS_STRICTER = ("minLength", "minItems", "minimum", "minProperties")
EXACT = ("pattern", "format", "uniqueItems", "exclusiveMinimum", "exclusiveMaximum", "multipleOf")
METHODS = ("get", "put", "post", "delete", "patch")


def breaking_changes(old: Json, new: Json) -> list[str]:
    """One line each, with where it is; empty where every caller of `old` is served by `new`."""
    return list(dict.fromkeys(_Comparison(old, new).lines()))


class _Comparison:
    def __init__(self, old: Json, new: Json) -> None:
        self.old, self.new = old, new
        self._seen: set[tuple[str, str, bool, bool]] = set()
        self._sent = set(_references(old, [item.get(method, {}).get("requestBody", {}) for item in old["paths"].values()
                                           for method in METHODS]))  # fmt: skip

    def lines(self) -> Iterator[str]:
        for path, item in self.old["paths"].items():
            for method in METHODS:
                if method in item:
                    where = f"{method.upper()} {path}"
                    now = self.new["paths"].get(path, {}).get(method)
                    if now is None:
                        yield f"{where}: gone"
                    else:
                        yield from self._operation(where, item[method], now)

    def _operation(self, where: str, old: Json, new: Json) -> Iterator[str]:
        if old["operationId"] != new["operationId"]:
            yield f"{where}: another operationId"
        was, now = ({(one["in"], one["name"]): one for one in it.get("parameters", [])} for it in (old, new))
        for key, parameter in was.items():
            if key not in now:
                yield f"{where}: parameter {key[1]} gone"
                continue
            if now[key].get("required") and not parameter.get("required"):
                yield f"{where}: parameter {key[1]} became required"
            yield from self._schema(f"{where} {key[1]}", parameter["schema"], now[key]["schema"], sent=True)
        for key, parameter in now.items():
            if key not in was and parameter.get("required"):
                yield f"{where}: new required parameter {key[1]}"
        yield from self._bodies(f"{where} body", old.get("requestBody"), new.get("requestBody"), sent=True)
        for status, response in old["responses"].items():
            if status not in new["responses"]:
                if status < "300":
                    yield f"{where}: status {status} gone"
                continue
            yield from self._bodies(f"{where} {status}", response, new["responses"][status], sent=False)
        for status in new["responses"]:
            if status < "300" and status not in old["responses"]:
                yield f"{where}: new status {status}"

    def _bodies(self, where: str, old: Json | None, new: Json | None, *, sent: bool) -> Iterator[str]:
        was, now = (old or {}).get("content", {}), (new or {}).get("content", {})
        for media_type, content in was.items():
            if media_type not in now:
                yield f"{where}: {media_type} gone"
            elif "schema" in content:
                yield from self._schema(where, content["schema"], now[media_type].get("schema", {}), sent=sent)
        if sent and not old and new and new.get("required"):
            yield f"{where}: became required"

    def _schema(self, where: str, old: Json, new: Json, *, sent: bool, back: bool = False) -> Iterator[str]:
        back = back or (not sent and old.get("$ref") in self._sent)
        if "$ref" in old and "$ref" in new:
            pair = (old["$ref"], new["$ref"], sent, back)
            if pair in self._seen:
                return
            self._seen.add(pair)
        old, new = self._whole(self.old, old), self._whole(self.new, new)
        yield from self._kind(where, old, new, sent=sent, back=back)
        yield from self._members(where, old, new, sent=sent, back=back)
        if "items" in old and "items" in new:
            yield from self._schema(f"{where}[]", old["items"], new["items"], sent=sent, back=back)
        if sent:
            yield from _limits(where, old, new)
        yield from self._choices(where, old, new, sent=sent, back=back)

    @staticmethod
    def _whole(document: Json, schema: Json) -> Json:
        while "$ref" in schema:
            at: Any = document
            for step in schema["$ref"].removeprefix("#/").split("/"):
                at = at[step]
            schema = at
        return schema

    @staticmethod
    def _kind(where: str, old: Json, new: Json, *, sent: bool, back: bool) -> Iterator[str]:
        was, now = ({it["type"]} if isinstance(it.get("type"), str) else set(it.get("type", ())) for it in (old, new))
        if was != now and (was - now if sent else now - was or not now):
            yield f"{where}: type {sorted(was)} became {sorted(now)}"
        values_was, values_now = _values(old), _values(new)
        if sent and values_now is not None and (values_was is None or values_was - values_now):
            yield f"{where}: words are no longer taken"
        if not sent and not back and values_was is not None and (values_now is None or values_now - values_was):
            yield f"{where}: new words are given"

    def _members(self, where: str, old: Json, new: Json, *, sent: bool, back: bool) -> Iterator[str]:
        was, now = old.get("properties", {}), new.get("properties", {})
        for name, schema in was.items():
            if name not in now:
                yield f"{where}/{name}: gone"
            else:
                yield from self._schema(f"{where}/{name}", schema, now[name], sent=sent, back=back)
        needed_was, needed_now = set(old.get("required", ())), set(new.get("required", ()))
        for name in sorted(needed_now - needed_was if sent else needed_was - needed_now):
            if sent or name in now:
                yield f"{where}/{name}: {'became required' if sent else 'may now be missing'}"

    def _choices(self, where: str, old: Json, new: Json, *, sent: bool, back: bool) -> Iterator[str]:
        was, now = ({self._tag(document, one): one for one in it.get("oneOf", it.get("anyOf", ()))}
                    for document, it in ((self.old, old), (self.new, new)))  # fmt: skip
        for tag, one in was.items():
            if tag in now:
                yield from self._schema(f"{where}<{tag}>", one, now[tag], sent=sent, back=back)
            elif sent and was:
                yield f"{where}: kind {tag} is no longer taken"
        for tag in now if was and not sent and not back else ():
            if tag not in was:
                yield f"{where}: new kind {tag} is given"

    def _tag(self, document: Json, schema: Json) -> str:
        if "$ref" in schema:
            return str(schema["$ref"].rpartition("/")[2])
        return str(self._whole(document, schema).get("type", "any"))


def _references(document: Json, within: Any, found: frozenset[str] = frozenset()) -> frozenset[str]:
    """The references in a part of a document, and in what they lead to."""
    if isinstance(within, list):
        for one in within:
            found = _references(document, one, found)
        return found
    if not isinstance(within, dict):
        return found
    target = within.get("$ref")
    if isinstance(target, str) and target not in found:
        at: Any = document
        for step in target.removeprefix("#/").split("/"):
            at = at[step]
        found = _references(document, at, found | {target})
    return _references(document, list(within.values()), found)


def _values(schema: Json) -> set[str] | None:
    if "const" in schema:
        return {repr(schema["const"])}
    return {repr(one) for one in schema["enum"]} if "enum" in schema else None


def _limits(where: str, old: Json, new: Json) -> Iterator[str]:
    for name in LOWER_IS_STRICTER:
        if name in new and (name not in old or new[name] < old[name]):
            yield f"{where}: {name} became {new[name]}"
    for name in HIGHER_IS_STRICTER:
        if name in new and new[name] > old.get(name, float("-inf")) and not (name not in old and new[name] == 0):
            yield f"{where}: {name} became {new[name]}"
    for name in EXACT:
        if name in new and new[name] != old.get(name):
            yield f"{where}: {name} changed"
    if new.get("additionalProperties") is False and old.get("additionalProperties") is not False:
        yield f"{where}: unknown members are no longer taken"
