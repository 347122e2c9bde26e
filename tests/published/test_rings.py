"""Saturn's ring against Meeus, against tables of the crossings of 1995 and 1996, and at later dates."""

from datetime import UTC, datetime

import pytest

from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.ring import Ring, ring_of
from tests.published.tables import rows


def ring_at(text: str) -> Ring:
    ring = ring_of(disc_at(Body.SATURN, datetime.fromisoformat(text).replace(tzinfo=UTC)))
    assert ring is not None
    return ring


def example(row_id: str) -> float:
    return next(float(row["expected"]) for row in rows("worked_positions.csv") if row["id"] == row_id)


def crossing_rows() -> list[dict[str, str]]:
    return [row for row in rows("rings_and_physical.csv") if row["source"] == "NICH94"]


def test_the_ring_of_meeus_45a() -> None:
    """Astronomical Algorithms, 2nd ed., p. 320.

    The book's outer edge (375.35 arcsec at 1 au, of an older almanac) is 0.5 % smaller than the edge of
    ring A measured since, so that the axes may differ by that much; their ratio may not.
    """
    ring = ring_at("1992-12-16")
    disc = disc_at(Body.SATURN, datetime(1992, 12, 16, tzinfo=UTC))

    assert ring.opening_deg == pytest.approx(example("M45a-1"), abs=0.02)
    assert ring.sun_latitude_deg == pytest.approx(example("M45a-2"), abs=0.02)
    assert disc.pole_angle_deg == pytest.approx(example("M45a-4"), abs=0.05)
    assert ring.major_axis_arcsec == pytest.approx(example("M45a-5"), rel=0.005)
    assert ring.minor_axis_arcsec == pytest.approx(example("M45a-6"), rel=0.005)
    assert ring.minor_axis_arcsec / ring.major_axis_arcsec == pytest.approx(10.15 / 35.87, abs=0.0005)


@pytest.mark.parametrize("row", crossing_rows(), ids=lambda row: row["time_utc"])
def test_the_crossings_of_1995_and_1996(row: dict[str, str]) -> None:
    """Tables of P. D. Nicholson (1994), kept by the Planetary Data System's ring node."""
    ring = ring_at(row["time_utc"])
    of_sun = "Sun" in row["quantity"]

    found = ring.sun_latitude_deg if of_sun else ring.opening_deg

    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_the_earth_crosses_the_ring_s_plane_in_march_2025() -> None:
    """2025 March 23, as almanacs have it; by the pole of WGCCRE 2015 at 18:24, by older ones at 14:47."""
    before, after = ring_at("2025-03-23T12:00:00"), ring_at("2025-03-23T21:00:00")

    assert before.opening_deg > 0.0 > after.opening_deg
    assert abs(ring_at("2025-03-23T18:24:00").opening_deg) < 0.001


def test_between_the_two_crossings_of_2025_the_dark_side_is_seen() -> None:
    """The Sun crossed on 2025 May 6: from March 23 until then the Earth saw the unlit face."""
    assert ring_at("2025-03-10").lit_side_seen
    assert not ring_at("2025-04-15").lit_side_seen
    assert ring_at("2025-05-20").lit_side_seen


def test_saturn_in_april_2009_is_nearly_edge_on() -> None:
    """Computed with skyfield and DE421: disc 19.3 arcsec, ring 43.9 arcsec, tilt -3.8 degrees."""
    ring = ring_at("2009-04-15")
    disc = disc_at(Body.SATURN, datetime(2009, 4, 15, tzinfo=UTC))

    assert disc.equatorial_diameter_arcsec == pytest.approx(19.3, abs=0.1)
    assert ring.major_axis_arcsec == pytest.approx(43.9, abs=0.3)
    assert ring.opening_deg == pytest.approx(-3.8, abs=0.2)
