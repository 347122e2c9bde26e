"""What to expect against what observers commonly report, aperture by aperture."""

import math

import pytest

from core.air.dispersion import spread_arcsec
from core.air.finest_detail import finest_detail
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.looks.face import Face
from core.looks.feature_rules import Feature
from core.looks.features import Seen, features_of
from core.sky.bodies import Body
from core.sky.moons import Moon
from core.sky.ring import GAP_KM, OUTER_EDGE_KM, Ring
from tests.published.tables import Row, rows

# Reports seldom tell the height; half way up is what an observer waits for.
ALTITUDE_DEG = 50.0
IO_OVER_JUPITER = 3643.0 / 142_984.0
RING_OVER_GLOBE = 2 * OUTER_EDGE_KM / 120_536.0


def face_of(row: Row) -> Face:
    diameter = float(row["diameter_arcsec"])
    more = float(row["opening_deg_or_lit"] or "nan")
    body = Body(row["body"])
    if body is Body.SATURN:
        axis = RING_OVER_GLOBE * diameter
        ring = Ring(
            opening_deg=more,
            sun_latitude_deg=more,
            major_axis_arcsec=axis,
            minor_axis_arcsec=axis * math.sin(math.radians(more)),
            gap_width_arcsec=axis / 2 * (GAP_KM[1] - GAP_KM[0]) / OUTER_EDGE_KM,
        )
        return Face(body=body, diameter_arcsec=diameter, ring=ring, phase_angle_deg=4)
    if body is Body.JUPITER:
        return Face(
            body=body,
            diameter_arcsec=diameter,
            widest_moon_arcsec=3 * diameter,
            shadows=((Moon.IO, IO_OVER_JUPITER * diameter),),
        )
    return Face(body=body, diameter_arcsec=diameter, illuminated_fraction=1.0 if math.isnan(more) else more)


def label(row: Row) -> str:
    return "-".join(row[key] for key in ("body", "feature", "aperture_mm", "air", "power"))


@pytest.mark.parametrize("row", rows("expectations.csv"), ids=label)
def test_reports(row: Row) -> None:
    aperture_mm = float(row["aperture_mm"])
    # A first look is judged at the height looked at.
    blur = FIRST_LOOK_BLUR_ARCSEC[FirstLook(row["air"])]
    spread = float(spread_arcsec(ALTITUDE_DEG))
    finest = finest_detail(aperture_mm=aperture_mm, blur_arcsec=blur, dispersion_arcsec=spread).arcsec
    how = Seen(finest_arcsec=finest, aperture_mm=aperture_mm, power=float(row["power"]))

    found = {each.feature: each.likelihood.name.lower() for each in features_of(face_of(row), how)}

    # What is left out of the list is as good as unlikely.
    assert found.get(Feature(row["feature"]), "unlikely") in row["expected"].split("|")


def test_there_are_rows_enough_and_each_names_its_source() -> None:
    table = rows("expectations.csv")

    assert len(table) >= 40
    assert all(row["source"] for row in table)
