"""The log of what was put on trees."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "applications",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("reference", sa.String(64), nullable=False, index=True),
        sa.Column("applied_on", sa.String(10), nullable=False),
        sa.Column("actives", sa.Text(), nullable=False),
        sa.Column("logged_at", sa.String(32), nullable=False),
        sa.Column("crop", sa.String(64)),
        sa.Column("product", sa.String(64)),
        sa.Column("version", sa.Integer()),
        sa.Column("product_name", sa.String(200)),
        sa.Column("epa_reg_no", sa.String(40)),
        sa.Column("corrects", sa.String(32), sa.ForeignKey("applications.id"), unique=True),
        sa.Column("did_not_happen", sa.Boolean(), nullable=False),
    )


def downgrade() -> None:
    """Take the table away."""
    op.drop_table("applications")
