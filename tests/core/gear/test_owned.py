"""What may be owned: every range by its two ends, and which figures exclude each other.

The ranges are those that the program is agreed to refuse outside of, no source; the barrels are the trade's.
"""

import math
from collections.abc import Callable, Mapping

import pytest
from attrs import evolve

from core.gear.eye import Eye
from core.gear.owned import Barlow, Diagonal, Eyepiece, Filter, Telescope, TelescopeKind

Make = Callable[..., object]


def reflector(**given: object) -> Telescope:
    figures = {"aperture_mm": 2000, "focal_length_mm": 1000} | given
    return Telescope(name="reflector", kind=TelescopeKind.REFLECTOR, **figures)  # type: ignore[arg-type]


def spotter(**given: object) -> Telescope:
    return Telescope(name="spotter", kind=TelescopeKind.FIXED, aperture_mm=80, **given)  # type: ignore[arg-type]


def eyepiece(**given: object) -> Eyepiece:
    figures = {"barrel_mm": 50.8} | given
    return Eyepiece(name="eyepiece", **figures)  # type: ignore[arg-type]


def barlow(**given: object) -> Barlow:
    return Barlow(name="Barlow", **given)  # type: ignore[arg-type]


def neutral(**given: object) -> Filter:
    return Filter(name="grey", **given)  # type: ignore[arg-type]


RANGES = [
    (reflector, "aperture_mm", 20, 2000, {}),
    (reflector, "focal_length_mm", 50, 20_000, {}),
    (spotter, "power", 1, 500, {}),
    (spotter, "power_min", 1, 499, {"power_max": 500}),
    (spotter, "true_field_deg", 0.05, 20, {"power": 20}),
    (reflector, "obstruction_mm", 0, 1500, {}),
    (reflector, "cooling_minutes", 1, 1440, {"cooling_from_c": 10}),
    (reflector, "cooling_from_c", 1.01, 60, {"cooling_minutes": 40}),
    (reflector, "mirror_thickness_mm", 3, 200, {}),
    (reflector, "mask_mm", 20, 1999, {}),
    (reflector, "binoviewer_factor", 1, 4, {}),
    (reflector, "settles_s", 0.1, 60, {}),
    (eyepiece, "focal_length_mm", 2, 60, {}),
    (eyepiece, "focal_length_min_mm", 2, 59, {"focal_length_max_mm": 60}),
    (eyepiece, "apparent_field_deg", 20, 120, {"focal_length_mm": 10}),
    (eyepiece, "field_stop_mm", 0.5, 50.8, {"focal_length_mm": 10}),
    (eyepiece, "eye_relief_mm", 0.5, 50, {"focal_length_mm": 10}),
    (barlow, "factor", 0.3, 5, {}),
    (barlow, "measured_factor", 1.1, 5, {"factor": 2}),
    (neutral, "transmittance", 0.0001, 1, {}),
    (Eye, "pupil_mm", 2, 9, {}),
]


@pytest.mark.parametrize(("make", "figure", "low", "high", "beside"), RANGES)
def test_a_figure_is_taken_up_to_both_ends_of_its_range(
    make: Make, figure: str, low: float, high: float, beside: Mapping[str, float]
) -> None:
    for value in (low, high):
        assert getattr(make(**beside, **{figure: value}), figure) == value
    for value in (math.nextafter(low, -math.inf), high + 1.0, math.nan, math.inf, True):
        with pytest.raises(ValueError, match="must be"):
            make(**beside, **{figure: value})


def test_the_upper_end_of_a_range_has_the_same_bounds_and_so_has_a_measured_reducer() -> None:
    assert [spotter(power_min=1, power_max=power).power_max for power in (1.5, 500)] == [1.5, 500]
    assert [eyepiece(focal_length_min_mm=2, focal_length_max_mm=mm).is_zoom for mm in (2.5, 60)] == [
        True,
        True,
    ]
    assert [barlow(factor=0.5, measured_factor=each).working_factor for each in (0.3, 0.95)] == [0.3, 0.95]
    for make in (
        lambda: spotter(power_min=1, power_max=500.5),
        lambda: spotter(power_min=0.5, power_max=0.9),
        lambda: eyepiece(focal_length_min_mm=2, focal_length_max_mm=60.5),
        lambda: barlow(factor=0.5, measured_factor=0.29),
    ):
        with pytest.raises(ValueError, match="must be from"):
            make()


@pytest.mark.parametrize("end", ["min", "max"])
def test_both_ends_of_a_zoom_have_a_field_from_20_to_120_degrees(end: str) -> None:
    def zoom(field_deg: float) -> Eyepiece:
        return eyepiece(
            focal_length_min_mm=8, focal_length_max_mm=24, **{f"apparent_field_at_{end}_deg": field_deg}
        )

    assert zoom(20) != zoom(120)
    for field_deg in (19.9, 120.1):
        with pytest.raises(ValueError, match="from 20 to 120 degrees"):
            zoom(field_deg)


@pytest.mark.parametrize("barrel_mm", [24.5, 31.75, 50.8])
def test_barrels_are_of_three_sizes(barrel_mm: float) -> None:
    assert reflector(barrel_mm=barrel_mm).barrel_mm == barrel_mm
    with pytest.raises(ValueError, match=r"one of 24\.5, 31\.75, 50\.8"):
        barlow(factor=2, barrel_mm=barrel_mm + 1)
    with pytest.raises(ValueError, match="one of"):
        reflector(barrel_mm=barrel_mm + 1)
    with pytest.raises(ValueError, match="one of"):
        eyepiece(focal_length_mm=10, barrel_mm=barrel_mm - 1)


@pytest.mark.parametrize(
    ("make", "given", "words"),
    [
        (reflector, {"focal_length_mm": None}, "needs focal_length_mm"),
        (reflector, {"power": 20}, 'belongs to kind "fixed" only'),
        (reflector, {"power_min": 20, "power_max": 60}, 'belongs to kind "fixed" only'),
        (reflector, {"power_max": 60}, 'belongs to kind "fixed" only'),
        (reflector, {"aperture_mm": 150, "obstruction_mm": 150}, "less than the aperture, 150 mm"),
        (reflector, {"aperture_mm": 150, "mask_mm": 150}, "less than the aperture, 150 mm"),
        (reflector, {"cooling_minutes": 40}, "go together"),
        (reflector, {"cooling_from_c": 10}, "go together"),
        (spotter, {"power": 20, "focal_length_mm": 400}, "not a focal length"),
        (spotter, {"power": 20, "power_min": 20}, "either power, or power_min and power_max"),
        (spotter, {"power": 20, "power_max": 60}, "either power, or power_min and power_max"),
        (spotter, {}, "needs power, or power_min and power_max"),
        (spotter, {"power_min": 20}, "needs power, or power_min and power_max"),
        (spotter, {"power_max": 60}, "needs power, or power_min and power_max"),
        (spotter, {"power_min": 20, "power_max": 20}, "power_min must be less than power_max"),
        (eyepiece, {}, "needs focal_length_mm"),
        (eyepiece, {"focal_length_min_mm": 8}, "needs focal_length_mm"),
        (eyepiece, {"focal_length_max_mm": 24}, "needs focal_length_mm"),
        (eyepiece, {"focal_length_mm": 10, "focal_length_min_mm": 8}, "or both ends of a zoom"),
        (eyepiece, {"focal_length_mm": 10, "focal_length_max_mm": 24}, "or both ends of a zoom"),
        (eyepiece, {"focal_length_mm": 10, "apparent_field_at_min_deg": 60}, "belong to a zoom"),
        (eyepiece, {"focal_length_mm": 10, "apparent_field_at_max_deg": 60}, "belong to a zoom"),
        (eyepiece, {"focal_length_min_mm": 8, "focal_length_max_mm": 8}, "must be less than"),
        (
            eyepiece,
            {"focal_length_min_mm": 8, "focal_length_max_mm": 24, "apparent_field_deg": 50},
            "instead",
        ),
        (
            eyepiece,
            {"focal_length_mm": 10, "barrel_mm": 24.5, "field_stop_mm": 24.6},
            "wider than the barrel",
        ),
        (barlow, {"factor": 0.96}, r"^factor must be from 0\.3 to 0\.95 \(reducer\) or from 1\.1 to 5"),
        (barlow, {"factor": 1.09}, r"from 0\.3 to 0\.95 \(reducer\) or from 1\.1 to 5"),
        (barlow, {"factor": 1.2, "measured_factor": 1.0}, "measured_factor must be from"),
        (barlow, {"factor": 2, "measured_factor": 0.9}, "both be of a Barlow or both of a reducer"),
        (neutral, {}, "either wratten or transmittance"),
        (neutral, {"wratten": "8", "transmittance": 0.5}, "either wratten or transmittance"),
    ],
)
def test_figures_that_exclude_or_need_each_other(make: Make, given: Mapping[str, object], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make(**given)


@pytest.mark.parametrize(
    "thing", [reflector(), eyepiece(focal_length_mm=10), barlow(factor=2), neutral(wratten="8")]
)
def test_everything_owned_has_a_name(thing: Telescope | Eyepiece | Barlow | Filter) -> None:
    for blank in ("", "  "):
        with pytest.raises(ValueError, match="visible character"):
            evolve(thing, name=blank)


def test_what_a_profile_leaves_out_is_what_most_owners_have() -> None:
    """The defaults of the profile's own format, no source."""
    scope, lens, eye = reflector(), eyepiece(focal_length_mm=10), Eye()

    assert (scope.barrel_mm, scope.diagonal, scope.fan, scope.driven) == (31.75, Diagonal.NONE, False, False)
    assert (scope.stack_barlows, scope.stands_on, scope.settles_s, scope.mask_mm) == (False, None, None, None)
    assert (lens.apparent_field_deg, lens.field_stop_mm, lens.eye_relief_mm) == (None, None, None)
    assert (eye.pupil_mm, eye.glasses, eye.astigmatism) == (7.0, False, False)


@pytest.mark.parametrize("factors", [(1.5, 1.6), (1.9, 2.1), (0.63, 0.6), (0.95, 0.3)])
def test_a_measured_factor_is_the_one_that_works(factors: tuple[float, float]) -> None:
    marked, measured = factors

    assert barlow(factor=marked, measured_factor=measured).working_factor == measured
    assert barlow(factor=marked).working_factor == marked


def test_a_stop_as_wide_as_the_barrel_and_the_edges_between_reducer_and_barlow_are_taken() -> None:
    assert eyepiece(focal_length_mm=10, barrel_mm=24.5, field_stop_mm=24.5).field_stop_mm == 24.5
    assert [barlow(factor=factor).is_reducer for factor in (0.95, 1.1)] == [True, False]


def test_what_is_not_told_is_assumed_by_the_kind_of_telescope() -> None:
    """Obstruction of a quarter and of a third of the aperture: common practice, no source."""
    shapes = [
        (scope.is_closed, round(scope.obstruction_ratio, 2), scope.obstruction_is_assumed)
        for kind in (TelescopeKind.REFRACTOR, TelescopeKind.REFLECTOR, TelescopeKind.CATADIOPTRIC)
        for scope in (Telescope(name="one", kind=kind, aperture_mm=200, focal_length_mm=1000),)
    ]
    told = reflector(aperture_mm=200, obstruction_mm=40, closed_tube=True)

    assert shapes == [(False, 0.0, False), (False, 0.25, True), (True, 0.33, True)]
    assert (told.is_closed, told.obstruction_ratio, told.obstruction_is_assumed) == (True, 0.2, False)
    assert (told.focal_ratio, spotter(power=20).focal_ratio) == (5.0, None)
