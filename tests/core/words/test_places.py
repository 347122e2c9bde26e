"""Towns with where they lie: told as finely as it takes to tell them from their namesakes."""

from core.sky.places import Place
from core.words.places import place_lines, place_with_clock


def town(latitude_deg: float, longitude_deg: float, region: str = "") -> Place:
    return Place(
        name="Springvale",
        region=region,
        country="Nowhere",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        time_zone="Europe/Lisbon",
        population=20_000,
    )


def test_hemispheres_have_their_letters_and_no_signs() -> None:
    towns = [town(41.2, -8.6), town(-33.9, 151.2), town(0.0, 0.0)]

    where = [line.split("   ")[1] for line in place_lines(towns)]

    assert where == ["41° N 9° W", "34° S 151° E", "0° N 0° E"]


def test_those_near_one_another_are_told_apart_by_decimals() -> None:
    """41.2 and 41.4 are both 41 degrees; what two decimals cannot tell apart is told with two."""
    near = [town(41.2, -8.6), town(41.4, -8.6), town(52.0, -8.6)]
    same = [town(41.2, -8.6), town(41.2, -8.6)]

    assert [line.split("   ")[1] for line in place_lines(near)] == [
        "41.2° N 8.6° W",
        "41.4° N 8.6° W",
        "52° N 9° W",
    ]
    first, second = (line.split("   ")[1] for line in place_lines(same))
    assert first == second
    assert "41.20°" in first or "41.2°" in first


def test_a_place_is_told_with_both_coordinates_and_its_clock() -> None:
    words = place_with_clock(town(41.15, -8.61))

    latitude, longitude, clock = words.split(", ")
    # 0.15 degrees are 9 minutes of arc, 0.61 are 36.6.
    assert latitude == "41°09′00″ N"
    assert longitude == "8°36′36″ W"
    assert clock == "clock of Europe/Lisbon"
    assert place_lines([town(41.15, -8.61, region="North")])[0].startswith("Springvale, North, Nowhere   ")
