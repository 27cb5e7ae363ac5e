"""The shelf: products with all versions of their label records."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "shelf_products",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("withdrawn_at", sa.String(32)),
    )
    op.create_table(
        "label_versions",
        sa.Column(
            "product_id", sa.String(64), sa.ForeignKey("shelf_products.id", ondelete="CASCADE"), primary_key=True
        ),
        sa.Column("version", sa.Integer(), primary_key=True),
        sa.Column("record", sa.Text(), nullable=False),
        sa.Column("entered_at", sa.String(32), nullable=False),
    )


def downgrade() -> None:
    """Take the tables away."""
    for table in ("label_versions", "shelf_products"):
        op.drop_table(table)
