"""When a yellow filter is worth its light."""

from core.air.dispersion import Dispersion


def test_a_yellow_filter_helps_below_35_degrees_only() -> None:
    # Ours.
    helps = [
        Dispersion(arcsec=1.0, altitude_deg=altitude).yellow_helps for altitude in (10.0, 34.9, 35.0, 60.0)
    ]

    assert helps == [True, True, False, False]
