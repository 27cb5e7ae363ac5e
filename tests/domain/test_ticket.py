"""The day of a ticket ends at midnight in the time zone of the store."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from service.domain.ticket import end_of_day


@pytest.mark.parametrize(
    ("zone", "now", "ends"),
    [
        ("America/New_York", "2026-07-04T23:59:59-04:00", "2026-07-05T00:00:00-04:00"),
        ("America/New_York", "2026-07-05T00:00:00-04:00", "2026-07-06T00:00:00-04:00"),
        ("America/Los_Angeles", "2026-11-01T00:30:00-07:00", "2026-11-02T00:00:00-08:00"),
        ("America/Santiago", "2026-12-31T23:00:00-03:00", "2027-01-01T00:00:00-03:00"),
        ("UTC", "2028-02-28T12:00:00+00:00", "2028-02-29T00:00:00+00:00"),
    ],
)
def test_a_day_ends_at_the_midnight_of_the_store(zone: str, now: str, ends: str) -> None:
    assert end_of_day(datetime.fromisoformat(now), ZoneInfo(zone)) == datetime.fromisoformat(ends)


def test_without_a_zone_the_midnight_of_the_machine_counts() -> None:
    now = datetime(2026, 3, 20, 12, tzinfo=UTC)
    midnight = end_of_day(now, None).astimezone()
    assert (midnight.hour, midnight.minute) == (0, 0)
    assert 0 < (midnight - now).total_seconds() <= 26 * 3600
