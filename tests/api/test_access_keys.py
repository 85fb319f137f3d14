"""Can keys be made and revoked over HTTP, and does the audit trail tell every write, on both databases?"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.catalogue.keys import make_key
from api.trial_resource import assert_problem
from catalogue_service import SAW, new, opened, servers, serving, url
from litestar.testing import TestClient

__all__ = ["servers", "url"]
KEYS = "/v1/access-keys"
ALL = ["calculate", "catalogue:read", "catalogue:write", "keys", "release"]


def bearer(text: str) -> dict[str, str]:
    return {"authorization": f"Bearer {text}"}


def test_life_of_a_key(url: str) -> None:
    with serving(url) as service:
        made = service.post(KEYS, json={"scopes": ALL, "note": "administration", "by": "test"})
        assert (made.status_code, made.headers["cache-control"]) == (201, "no-store")
        admin = bearer(made.json()["secret"])
        assert made.json()["key"]["scopes"] == ALL
        # the first key closes the door, also in the worker that made it
        assert_problem(service.get(KEYS), 401, "unauthenticated")
        reader = service.post(KEYS, json={"scopes": ["catalogue:read"], "note": "dispatch"}, headers=admin).json()
        assert reader["key"]["created_by"] == f"key {made.json()['key']['id']}"
        listed = service.get(KEYS, headers=admin)
        assert [row["note"] for row in listed.json()["items"]] == ["administration", "dispatch"]
        assert reader["secret"] not in listed.text
        assert service.get("/v1/kits", headers=bearer(reader["secret"])).status_code == 200
        for refused in (
            service.get(KEYS, headers=bearer(reader["secret"])),
            service.post(KEYS, json={"scopes": ["keys"], "note": "x"}, headers=bearer(reader["secret"])),
            service.delete(f"{KEYS}/{reader['key']['id']}", headers=bearer(reader["secret"])),
        ):
            assert_problem(refused, 403, "forbidden")
        revoked = service.delete(f"{KEYS}/{reader['key']['id']}", headers=admin)
        assert revoked.json()["revoked_by"] == f"key {made.json()['key']['id']}"
        assert_problem(service.get("/v1/kits", headers=bearer(reader["secret"])), 401, "unauthenticated")
        again = service.delete(f"{KEYS}/{reader['key']['id']}", headers=admin)
        assert again.json() == revoked.json()
        assert_problem(service.delete(f"{KEYS}/{'0' * 12}", headers=admin), 404, "no-such-entry")


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"scopes": ["keys"], "note": "x", "by": "y", "expires_at": "2001-01-01T00:00:00Z"}, "/expires_at"),
        ({"scopes": ["keys"], "note": "x", "by": "y", "expires_at": "2031-02-30T00:00:00Z"}, "/expires_at"),
        ({"scopes": ["keys"], "note": " ", "by": "y"}, "/note"),
        ({"scopes": ["everything"], "note": "x", "by": "y"}, "/scopes/0"),
        ({"scopes": [], "note": "x", "by": "y"}, "/scopes"),
    ],
)
def test_a_key_that_cannot_be_is_refused(url: str, body: dict[str, Any], pointer: str) -> None:
    with serving(url) as service:
        refused = service.post(KEYS, json=body)
        assert refused.status_code == 422
        assert refused.json()["errors"][0]["pointer"] == pointer
        assert service.get(KEYS).json()["items"] == []


def every_write(service: TestClient[Any]) -> None:
    service.post("/v1/tool-profiles", json=new("saw", SAW))
    service.post("/v1/tool-profiles", json=new("saw", SAW))  # adds nothing, so there is nothing to tell
    service.post("/v1/tool-profiles/saw/withdrawals", json={"why": "wrong plate", "by": "safety"})
    service.post("/v1/catalogue-releases", json={"note": "spring", "by": "desk"})
    service.post(KEYS, json={"scopes": ["keys"], "note": "x", "by": "admin"})


def test_every_write_is_in_the_audit_trail(url: str) -> None:
    with opened(url) as database, serving(url) as service:
        every_write(service)
        key = make_key(database, scopes=["catalogue:read"], note="reader", who="test")
    with serving(url) as service:
        shown = bearer(key.text)
        rows = service.get("/v1/audit", headers=shown).json()["items"]
        told = [(row["who"], row["action"], row["subject"].partition("/")[0], row["detail"]) for row in rows]
        assert told == [
            ("test", "make key", "key", "catalogue:read"),
            ("admin", "make key", "key", "keys"),
            ("desk", "release", "release", "spring"),
            ("safety", "withdraw", "tool-profile", "wrong plate"),
            ("fleet desk", "write", "tool-profile", "bought"),
        ]
        first = service.get("/v1/audit", params={"limit": 2}, headers=shown).json()
        rest = service.get("/v1/audit", params={"before": first["next_before"]}, headers=shown).json()
        assert first["items"] + rest["items"] == rows
        assert "next_before" not in rest
        one = service.get("/v1/audit", params={"subject": "tool-profile/saw/r1"}, headers=shown).json()
        assert [row["action"] for row in one["items"]] == ["write"]
        assert service.get("/v1/audit", params={"subject": "\u0000"}, headers=shown).json()["items"] == []
