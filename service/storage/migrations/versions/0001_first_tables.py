"""The first tables: stores with sites and stock, kept consultations and idempotency keys."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    _stores()
    _consultations()


def downgrade() -> None:
    """Take the tables away."""
    for table in ("idempotency_keys", "consultations", "stock_items", "sites", "stores"):
        op.drop_table(table)


def _stores() -> None:
    op.create_table(
        "stores",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("invented", sa.Boolean(), nullable=False),
    )
    op.create_table(
        "sites",
        sa.Column("id", sa.String(64), primary_key=True),
        _of_store(),
        sa.Column("label", sa.String(200), nullable=False),
        sa.Column("facts", sa.Text(), nullable=False),
    )
    op.create_table(
        "stock_items",
        sa.Column("id", sa.String(64), primary_key=True),
        _of_store(),
        sa.Column("cultivar", sa.String(100), nullable=False, index=True),
        sa.Column("rootstock", sa.String(100)),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("form", sa.String(100)),
    )


def _of_store() -> sa.Column[str]:
    return sa.Column(
        "store_id", sa.String(64), sa.ForeignKey("stores.id", ondelete="CASCADE"), nullable=False, index=True
    )


def _consultations() -> None:
    op.create_table(
        "consultations",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("question", sa.String(64), nullable=False, index=True),
        sa.Column("asked", sa.Text(), nullable=False),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.Column("rulebook", sa.String(64), nullable=False),
        sa.Column("kept_at", sa.String(32), nullable=False),
    )
    op.create_table(
        "idempotency_keys",
        sa.Column("key", sa.String(255), primary_key=True),
        sa.Column("request_digest", sa.String(64), nullable=False),
        sa.Column(
            "consultation_id",
            sa.String(32),
            sa.ForeignKey("consultations.id", ondelete="CASCADE"),
            nullable=False,
            index=True,
        ),
    )
