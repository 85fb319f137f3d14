"""Whatever is done in whatever order: do both databases tell the same history, and the one that a plain model tells?

The same acts go to an SQLite and a PostgreSQL catalogue, with the same clock, and to a model of lists and sets.
"""

from datetime import UTC, datetime, timedelta
from typing import Any

from ampwright.catalogue.database import Database
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.faults import HeadMoved, NoSuchEntry, NoSuchRevision
from ampwright.catalogue.releases import cut_release, list_members
from ampwright.catalogue.revisions import list_revisions, write_revision
from ampwright.catalogue.search import Filter, search_entries
from ampwright.catalogue.withdrawals import withdraw, withdrawals_as_of
from catalogue_examples import new_revision
from databases import Servers, fresh_database
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

TOOL = "tool-profile"
SLUGS = ("a", "a-b", "a.b", "b")
EVENTS = st.lists(
    st.one_of(
        st.tuples(
            st.just("write"),
            st.sampled_from(SLUGS),
            st.integers(0, 2),
            st.sampled_from(["approved", "draft"]),
            st.sampled_from([None, "create", 1, 2, 3]),
        ),
        st.tuples(st.just("withdraw"), st.sampled_from(SLUGS), st.sampled_from([None, 1, 2])),
        st.tuples(st.just("release")),
    ),
    max_size=14,
)


class Model:
    """The rules of storage, told with a dictionary: slug to a list of (content, status, withdrawn)."""

    def __init__(self) -> None:
        self.entries: dict[str, list[list[Any]]] = {}
        self.releases: list[list[tuple[str, int]]] = []
        self.withdrawn = 0

    def write(self, slug: str, content: int, status: str, expect: Any) -> str:
        history = self.entries.get(slug, [])
        if isinstance(expect, int) and not history:
            return "NoSuchEntry"
        if history and history[-1] == [content, status, False]:
            return "identical"
        if history and (expect == "create" or (isinstance(expect, int) and expect != len(history))):
            return "HeadMoved"
        self.entries.setdefault(slug, []).append([content, status, False])
        return "new"

    def withdraw(self, slug: str, revision: int | None) -> str:
        history = self.entries.get(slug)
        if history is None:
            return "NoSuchEntry"
        if revision is not None and revision > len(history):
            return "NoSuchRevision"
        for place in range(len(history)) if revision is None else [revision - 1]:
            history[place][2] = True
        self.withdrawn += 1
        return "done"

    def release(self) -> str:
        members = []
        for slug, history in self.entries.items():
            approved = [number for number, (_, status, _) in enumerate(history, start=1) if status == "approved"]
            if approved and not history[approved[-1] - 1][2]:
                members.append((slug, approved[-1]))
        self.releases.append(sorted(members, key=lambda member: member[0].encode()))
        return "done"

    def status(self, slug: str) -> str:
        _, status, withdrawn = self.entries[slug][-1]
        return "withdrawn" if withdrawn else status


def act(database: Database, event: tuple[Any, ...]) -> str:
    try:
        match event:
            case ("write", slug, content, status, expect):
                create, head = expect == "create", expect if isinstance(expect, int) else None
                document = {"name": slug, "n": content, "status": status}
                new = new_revision(slug, document, create=create, expected_head=head)
                return write_revision(database, new).outcome
            case ("withdraw", slug, revision):
                withdraw(database, TOOL, slug, revision, reason="wrong", who="tester")
            case _:
                cut_release(database, note="note", who="tester")
    except (HeadMoved, NoSuchEntry, NoSuchRevision) as fault:
        return type(fault).__name__
    return "done"


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(events=EVENTS)
def test_both_databases_and_the_model_agree(servers: Servers, events: list[tuple[Any, ...]]) -> None:
    model = Model()
    with fresh_database(servers, "sqlite") as one, fresh_database(servers, "postgresql") as two:
        now = [datetime(2027, 1, 14, 9, tzinfo=UTC)]
        databases = [Database(each.engine, clock=lambda: now[0]) for each in (one, two)]
        for event in events:
            now[0] += timedelta(seconds=1)
            expected = getattr(model, event[0])(*event[1:])
            assert [act(database, event) for database in databases] == [expected, expected]
        for database in databases:
            found = search_entries(database, Filter(kind=TOOL)).entries
            slugs = sorted(model.entries, key=str.encode)
            assert [(line.slug, line.revision, line.status) for line in found] == [
                (slug, len(model.entries[slug]), model.status(slug)) for slug in slugs
            ]
            for slug in slugs:
                lines = list_revisions(database, TOOL, slug)[::-1]
                assert [line.status for line in lines] == [status for _, status, _ in model.entries[slug]]
                known = withdrawals_as_of(database)
                for number, (_, _, withdrawn) in enumerate(model.entries[slug], start=1):
                    assert bool(known.of(TOOL, slug, number)) == withdrawn
            assert len(withdrawals_as_of(database).lines) == model.withdrawn
            for number, members in enumerate(model.releases, start=1):
                assert [(m.slug, m.revision) for m in list_members(database, number)] == members
        assert list(export_lines(databases[0])) == list(export_lines(databases[1]))
