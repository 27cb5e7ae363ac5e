"""Planting lists that are checked in their own time, and a schema of its own for the queue of a PostgreSQL."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
QUEUE_SCHEMA = "fruitwright_queue"


def upgrade() -> None:
    """Make the tables."""
    _lists()
    _checks()
    op.create_table(
        "leases",
        sa.Column("name", sa.String(64), primary_key=True),
        sa.Column("holder", sa.String(64), nullable=False),
        sa.Column("until_ms", sa.BigInteger(), nullable=False),
    )
    if op.get_bind().dialect.name == "postgresql":
        op.execute(f"CREATE SCHEMA IF NOT EXISTS {QUEUE_SCHEMA}")


def downgrade() -> None:
    """Take the tables away."""
    if op.get_bind().dialect.name == "postgresql":
        op.execute(f"DROP SCHEMA IF EXISTS {QUEUE_SCHEMA} CASCADE")
    for table in ("leases", "planting_list_parts", "planting_list_checks", "planting_list_pieces", "planting_lists"):
        op.drop_table(table)


def _lists() -> None:
    op.create_table(
        "planting_lists",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("form", sa.String(8), nullable=False),
        sa.Column("name", sa.String(300)),
        sa.Column("terms", sa.Text(), nullable=False),
        sa.Column("lines_expected", sa.Integer()),
        sa.Column("key", sa.String(255), unique=True),
        sa.Column("request_digest", sa.String(64), nullable=False),
        sa.Column("sent_at", sa.String(32), nullable=False),
    )
    op.create_table(
        "planting_list_pieces",
        sa.Column("list_id", sa.String(32), sa.ForeignKey("planting_lists.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("piece", sa.Integer(), primary_key=True),
        sa.Column("content", sa.LargeBinary(), nullable=False),
    )


def _checks() -> None:
    op.create_table(
        "planting_list_checks",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("list_id", sa.String(32), sa.ForeignKey("planting_lists.id", ondelete="CASCADE"), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("asked_at", sa.String(32), nullable=False),
        sa.Column("state", sa.String(16), nullable=False, index=True),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("stuck", sa.Integer(), nullable=False),
        sa.Column("parts", sa.Integer(), nullable=False),
        sa.Column("lines", sa.Integer(), nullable=False),
        sa.Column("verdicts", sa.Text(), nullable=False),
        sa.Column("rulebook", sa.String(64)),
        sa.Column("list_verdict", sa.String(32)),
        sa.Column("told", sa.LargeBinary()),
        sa.Column("changed_lines", sa.Integer()),
        sa.Column("faults", sa.Text()),
        sa.Column("ended_at", sa.String(32)),
        sa.UniqueConstraint("list_id", "number"),
    )
    op.create_table(
        "planting_list_parts",
        sa.Column(
            "check_id", sa.String(32), sa.ForeignKey("planting_list_checks.id", ondelete="CASCADE"), primary_key=True
        ),
        sa.Column("part", sa.Integer(), primary_key=True),
        sa.Column("lines", sa.Integer(), nullable=False),
        sa.Column("verdicts", sa.Text(), nullable=False),
        sa.Column("tally", sa.Text(), nullable=False),
        sa.Column("told", sa.LargeBinary(), nullable=False),
    )
