"""The tables of the catalogue, and the triggers that keep its history

Rollout rule: old and new code run side by side while a deployment rolls over. So a migration only adds what old code
can ignore (a table; a column that may be empty or has a default), and code that needs it ships after it. Removing or
renaming takes two releases: first the code stops using it, then a later migration drops it. The history (revisions,
releases, members, withdrawals, audit) is never rewritten, and a downgrade that would drop data refuses.
A batch change of a table on SQLite rebuilds it without its triggers: wrap it in `kept_triggers`. Test it on a filled
database.

Revision: 0001
Follows: nothing
"""

import sqlalchemy as sa
from alembic import op
from ampwright.catalogue.migration_guard import refuse_if_filled

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

TABLES = (
    "audit",
    "access_key",
    "entry_term",
    "entry_facet",
    "withdrawal",
    "release_member",
    "release",
    "entry_revision",
    "entry",
)
# Tables whose rows are written once. The condition says which rows an INSERT may not bring: one that leaves a gap, one
# that contradicts what is there.
WRITTEN_ONCE = {
    "entry_revision": """
        NEW.revision > 1 AND NOT EXISTS (SELECT 1 FROM entry_revision r
                WHERE r.kind = NEW.kind AND r.slug = NEW.slug AND r.revision = NEW.revision - 1)""",
    "release": "NEW.number > 1 AND NOT EXISTS (SELECT 1 FROM release r WHERE r.number = NEW.number - 1)",
    "release_member": """
        NOT EXISTS (SELECT 1 FROM release r WHERE r.number = NEW.number AND r.member_count >= NEW.place)""",
    "withdrawal": """
        NEW.number > 1 AND NOT EXISTS (SELECT 1 FROM withdrawal w
                WHERE w.number = NEW.number - 1 AND w.withdrawn_at < NEW.withdrawn_at)
        OR NOT EXISTS (SELECT 1 FROM entry_revision r
                WHERE r.kind = NEW.kind AND r.slug = NEW.slug AND r.revision = NEW.last_revision)""",
    "audit": "",
}
# Tables of which some columns move. Conditions: what an INSERT, what an UPDATE may not do. No row is ever deleted.
MOVING = {
    "entry": (
        "NEW.head <> 0",
        """NEW.kind <> OLD.kind OR NEW.slug <> OLD.slug OR NEW.head < OLD.head
        OR NOT EXISTS (SELECT 1 FROM entry_revision r
                WHERE r.kind = NEW.kind AND r.slug = NEW.slug AND r.revision = NEW.head)""",
    ),
    "access_key": (
        "NEW.revoked_at IS NOT NULL AND NEW.revoked_by IS NULL",
        """NEW.id <> OLD.id OR NEW.sha256 <> OLD.sha256 OR NEW.scopes <> OLD.scopes
        OR NEW.created_at <> OLD.created_at OR NEW.created_by <> OLD.created_by
        OR COALESCE(NEW.expires_at, '') <> COALESCE(OLD.expires_at, '') OR OLD.revoked_at IS NOT NULL""",
    ),
}
# On SQLite, INSERT OR REPLACE deletes what is in its way without asking the triggers for DELETE: a row whose key is
# there already. (PostgreSQL has no such statement; there the keys themselves refuse, ON CONFLICT DO NOTHING must get
# past the triggers, and looking up each row again would cost more than storing it.)
REPLACED = {
    "entry": "EXISTS (SELECT 1 FROM entry e WHERE e.kind = NEW.kind AND e.slug = NEW.slug)",
    "entry_revision": """EXISTS (SELECT 1 FROM entry_revision r
        WHERE r.kind = NEW.kind AND r.slug = NEW.slug AND r.revision = NEW.revision)""",
    "release": "EXISTS (SELECT 1 FROM release r WHERE r.number = NEW.number)",
    "release_member": """EXISTS (SELECT 1 FROM release_member m WHERE m.number = NEW.number AND m.place = NEW.place)
        OR EXISTS (SELECT 1 FROM release_member m
            WHERE m.number = NEW.number AND m.kind = NEW.kind AND m.slug = NEW.slug)""",
    "withdrawal": """EXISTS (SELECT 1 FROM withdrawal w
        WHERE w.number = NEW.number OR w.withdrawn_at = NEW.withdrawn_at)""",
    "access_key": "EXISTS (SELECT 1 FROM access_key k WHERE k.id = NEW.id)",
    "audit": "EXISTS (SELECT 1 FROM audit a WHERE a.number = NEW.number)",
}


def _key(length: int) -> sa.types.TypeEngine[str]:
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def _kind(**more: bool) -> sa.Column[str]:
    return sa.Column("kind", _key(20), nullable=False, **more)


def _slug(**more: bool) -> sa.Column[str]:
    return sa.Column("slug", _key(80), nullable=False, **more)


def _of_entry(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["kind", "slug"], ["entry.kind", "entry.slug"], name=f"fk_{table}_kind_slug_entry")


def upgrade() -> None:
    op.create_table(
        "entry",
        _kind(),
        _slug(),
        sa.Column("head", sa.Integer, nullable=False),
        sa.CheckConstraint(
            "kind IN ('tool-profile', 'power-source', 'cord', 'kit', 'source-unit')", name=op.f("ck_entry_kind")
        ),
        sa.PrimaryKeyConstraint("kind", "slug", name="pk_entry"),
    )
    op.create_table(
        "entry_revision",
        _kind(),
        _slug(),
        sa.Column("revision", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("format", sa.Integer, nullable=False),
        sa.Column("status", sa.String(10), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("entered_at", sa.String(27), nullable=False),
        sa.Column("entered_by", sa.String(200), nullable=False),
        sa.Column("why", sa.String(2000), nullable=False),
        sa.CheckConstraint("revision >= 1", name=op.f("ck_entry_revision_revision")),
        sa.CheckConstraint("status IN ('draft', 'approved')", name=op.f("ck_entry_revision_status")),
        _of_entry("entry_revision"),
        sa.PrimaryKeyConstraint("kind", "slug", "revision", name="pk_entry_revision"),
    )
    op.create_table(
        "release",
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("member_count", sa.Integer, nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("made_by", sa.String(200), nullable=False),
        sa.Column("note", sa.String(2000), nullable=False),
        sa.CheckConstraint("number >= 1", name=op.f("ck_release_number")),
        sa.CheckConstraint("member_count >= 0", name=op.f("ck_release_member_count")),
        sa.PrimaryKeyConstraint("number", name="pk_release"),
    )
    op.create_table(
        "release_member",
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("place", sa.Integer, autoincrement=False, nullable=False),
        _kind(),
        _slug(),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.CheckConstraint("place >= 1", name=op.f("ck_release_member_place")),
        sa.ForeignKeyConstraint(["number"], ["release.number"], name="fk_release_member_number_release"),
        sa.ForeignKeyConstraint(
            ["kind", "slug", "revision"],
            ["entry_revision.kind", "entry_revision.slug", "entry_revision.revision"],
            name="fk_release_member_kind_slug_revision_entry_revision",
        ),
        sa.PrimaryKeyConstraint("number", "place", name="pk_release_member"),
    )
    op.create_index("ix_release_member_number_kind_slug", "release_member", ["number", "kind", "slug"], unique=True)
    op.create_table(
        "withdrawal",
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        _kind(),
        _slug(),
        sa.Column("first_revision", sa.Integer, nullable=False),
        sa.Column("last_revision", sa.Integer, nullable=False),
        sa.Column("reason", sa.String(2000), nullable=False),
        sa.Column("withdrawn_by", sa.String(200), nullable=False),
        sa.Column("withdrawn_at", sa.String(27), nullable=False),
        sa.CheckConstraint("number >= 1", name=op.f("ck_withdrawal_number")),
        sa.CheckConstraint(
            "first_revision >= 1 AND last_revision >= first_revision", name=op.f("ck_withdrawal_revisions")
        ),
        _of_entry("withdrawal"),
        sa.PrimaryKeyConstraint("number", name="pk_withdrawal"),
        sa.UniqueConstraint("withdrawn_at", name="uq_withdrawal_withdrawn_at"),
    )
    op.create_index("ix_withdrawal_kind_slug", "withdrawal", ["kind", "slug"])
    op.create_table(
        "entry_facet",
        _kind(),
        _slug(),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("status", _key(10), nullable=False),
        sa.Column("power_low_w", sa.Double),
        sa.Column("power_high_w", sa.Double),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("format", sa.Integer, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("entered_at", sa.String(27), nullable=False),
        sa.Column("entered_by", sa.String(200), nullable=False),
        sa.CheckConstraint("status IN ('draft', 'approved', 'withdrawn')", name=op.f("ck_entry_facet_status")),
        _of_entry("entry_facet"),
        sa.PrimaryKeyConstraint("kind", "slug", name="pk_entry_facet"),
    )
    op.create_index("ix_entry_facet_status_kind_slug", "entry_facet", ["status", "kind", "slug"])
    op.create_table(
        "entry_term",
        sa.Column("field", _key(10), nullable=False),
        sa.Column("value", _key(60), nullable=False),
        _kind(),
        _slug(),
        sa.CheckConstraint("field IN ('word', 'plug', 'voltage', 'power')", name=op.f("ck_entry_term_field")),
        _of_entry("entry_term"),
        sa.PrimaryKeyConstraint("field", "value", "kind", "slug", name="pk_entry_term"),
    )
    op.create_index(
        "ix_entry_term_kind_slug_field_value", "entry_term", ["kind", "slug", "field", "value"], unique=True
    )
    op.create_table(
        "access_key",
        sa.Column("id", _key(20), nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("scopes", sa.String(200), nullable=False),
        sa.Column("note", sa.String(2000), nullable=False),
        sa.Column("created_at", sa.String(27), nullable=False),
        sa.Column("created_by", sa.String(200), nullable=False),
        sa.Column("expires_at", sa.String(27)),
        sa.Column("revoked_at", sa.String(27)),
        sa.Column("revoked_by", sa.String(200)),
        sa.PrimaryKeyConstraint("id", name="pk_access_key"),
    )
    op.create_table(
        "audit",
        sa.Column("number", sa.BigInteger().with_variant(sa.Integer, "sqlite"), sa.Identity(), nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("who", sa.String(200), nullable=False),
        sa.Column("action", sa.String(40), nullable=False),
        sa.Column("subject", sa.String(200), nullable=False),
        sa.Column("detail", sa.String(2000), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_audit"),
    )
    op.create_index("ix_audit_subject", "audit", ["subject"])
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        _guard_postgresql()


def _guard_sqlite() -> None:
    def trigger(table: str, event: str, condition: str) -> None:
        when = f"WHEN {condition}" if condition else ""
        _run(
            f"CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON {table} {when} BEGIN"
            f" SELECT RAISE(ABORT, 'history is never changed: {table}'); END"
        )

    for table, bad_insert in WRITTEN_ONCE.items():
        trigger(table, "INSERT", " OR ".join(filter(None, (REPLACED[table], bad_insert))))
        trigger(table, "UPDATE", "")
        trigger(table, "DELETE", "")
    for table, (bad_insert, bad_update) in MOVING.items():
        trigger(table, "INSERT", f"{bad_insert} OR {REPLACED[table]}")
        trigger(table, "UPDATE", bad_update)
        trigger(table, "DELETE", "")


def _guard_postgresql() -> None:
    refusal = "RAISE EXCEPTION 'history is never changed: %', TG_TABLE_NAME USING ERRCODE = '23000';"
    _run(f"CREATE FUNCTION ampwright_refuse() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN {refusal} END $$")

    def trigger(table: str, event: str, condition: str) -> None:
        function = "ampwright_refuse"
        if condition:
            function = f"{table}_no_{event.lower()}"
            _run(
                # A plan that was made while a table was empty is kept, and would read all of it for each new row.
                f"CREATE FUNCTION {function}() RETURNS trigger LANGUAGE plpgsql SET enable_seqscan = off AS $$ BEGIN"
                f" IF {condition} THEN {refusal} END IF; RETURN NEW; END $$"
            )
        each = "STATEMENT" if event == "TRUNCATE" else "ROW"
        _run(
            f"CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON {table}"
            f" FOR EACH {each} EXECUTE FUNCTION {function}()"
        )

    for table, bad_insert in WRITTEN_ONCE.items():
        if bad_insert:
            trigger(table, "INSERT", bad_insert)
        for event in ("UPDATE", "DELETE", "TRUNCATE"):
            trigger(table, event, "")
    for table, (bad_insert, bad_update) in MOVING.items():
        trigger(table, "INSERT", bad_insert)
        trigger(table, "UPDATE", bad_update)
        for event in ("DELETE", "TRUNCATE"):
            trigger(table, event, "")


def downgrade() -> None:
    refuse_if_filled(op.get_bind(), TABLES)
    for table in TABLES:
        op.drop_table(table)
    if op.get_bind().dialect.name == "postgresql":
        for table, bad_insert in WRITTEN_ONCE.items():
            if bad_insert:
                _run(f"DROP FUNCTION {table}_no_insert()")
        for table in MOVING:
            _run(f"DROP FUNCTION {table}_no_insert()")
            _run(f"DROP FUNCTION {table}_no_update()")
        _run("DROP FUNCTION ampwright_refuse()")


def _run(statement: str) -> None:
    # not op.execute: that would read ':' in a statement as a parameter and '%' as a format on PostgreSQL
    op.get_bind().exec_driver_sql(
        statement.replace("%", "%%") if op.get_bind().dialect.name == "postgresql" else statement
    )
