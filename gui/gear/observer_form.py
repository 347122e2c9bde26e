"""The form of the observer: the eye, the usual hours outside, and how figures are shown."""

from attrs import evolve

from core.air.first_look import FirstLook
from core.gear.eye import Eye
from core.record.observer import (
    FROM_DUSK,
    UNTIL_DAWN,
    FirstLookBlur,
    LengthUnit,
    Profile,
    RedSpot,
    TemperatureUnit,
)
from core.words.gear_edits import BLUR_OF, CHANGE_OBSERVER, change_step
from core.words.owned_kinds import Kind
from gui.gear.form import OwnedForm, Values
from gui.gear.hours_out import reads_time_or, time_text
from gui.gear.usual_pupil import UsualPupil
from gui.widgets.choice_field import ChoiceField, SwitchField
from gui.widgets.date_field import DateField
from gui.widgets.field import Field
from gui.widgets.readings import figure, plain_text, read_words, reads_millimetres, reads_number
from gui.widgets.typed_field import TypedField

_LENGTHS = [(LengthUnit.MM, "millimetres"), (LengthUnit.INCH, "inches")]
_TEMPERATURES = [(TemperatureUnit.CELSIUS, "Celsius"), (TemperatureUnit.FAHRENHEIT, "Fahrenheit")]
_CLOCKS = [(24, "24 hours"), (12, "12 hours")]
_EYE = ("pupil_mm", "glasses", "astigmatism")
_PREFERENCES = ("length", "temperature", "clock", "out_from", "out_until")
_AIR = ("steady_arcsec", "fair_arcsec", "boiling_arcsec")


class ObserverForm(OwnedForm[Profile]):
    """Edits what a profile says of the person."""

    kind = Kind.OBSERVER

    def build(self) -> None:
        self.add(TypedField("observer", "Name", read=read_words, write=plain_text, optional=True))
        self.add_heading("Eye")
        read_pupil = reads_millimetres(Eye, "pupil_mm", "The widest pupil")
        self.add(TypedField("pupil_mm", "Widest pupil", read=read_pupil, write=figure, unit="mm", letters=9))
        self.add(SwitchField("glasses", "Glasses kept on"))
        self.add(SwitchField("astigmatism", "Astigmatism"))
        self.usual_pupil = UsualPupil(self)
        self.usual_pupil.wanted.connect(self._take_usual_pupil)
        self.add_row(self.usual_pupil)
        self.add_row(self.usual_pupil.words)
        self.add_heading("Usual hours outside")
        self._add_hour("out_from", "Out from", FROM_DUSK)
        self._add_hour("out_until", "Out until", UNTIL_DAWN)
        self.add_heading("How figures are shown")
        self.add(ChoiceField("length", "Apertures in", _LENGTHS))
        self.add(ChoiceField("temperature", "Temperatures in", _TEMPERATURES))
        self.add(ChoiceField("clock", "Clock", _CLOCKS))
        self.add_heading("Jupiter's red spot")
        read_longitude = reads_number(RedSpot, "longitude_deg", "The longitude")
        longitude = TypedField(
            "red_spot_longitude_deg",
            "System II",
            read=read_longitude,
            write=figure,
            optional=True,
            unit="°",
            letters=9,
        )
        self.add(longitude)
        self.add(DateField("red_spot_on", "Seen there on", today=self.today))
        self.add_more("More about the air")
        self._air = self.add_heading("Blur straight overhead at a first look")
        for name, look in zip(_AIR, FirstLook, strict=True):
            read = reads_number(FirstLookBlur, name, BLUR_OF.format(look=look.value))
            label = look.value.capitalize()
            self.add(TypedField(name, label, read=read, write=figure, unit="″", letters=9))

    def shown(self, values: Values) -> set[str]:
        usual = FirstLookBlur()
        is_usual = all(values[name] in (None, getattr(usual, name)) for name in _AIR)
        return set(self.fields) - (set(_AIR) if is_usual and not self.wants_more else set())

    def tell(self, values: Values, thing: Profile | None) -> None:
        self.show_row(self._air, _AIR[0] in self.shown(values))

    @property
    def thing(self) -> Profile:
        return self.state.profile

    def values_of(self, thing: Profile) -> Values:
        spot = thing.red_spot
        return {
            "observer": thing.observer or None,
            **{name: getattr(thing.eye, name) for name in _EYE},
            **{name: getattr(thing.preferences, name) for name in _PREFERENCES},
            **{name: getattr(thing.air, name) for name in _AIR},
            "red_spot_longitude_deg": spot.longitude_deg if spot else None,
            "red_spot_on": spot.on if spot else None,
        }

    def make(self, values: Values, before: Profile | None) -> Profile:
        longitude_deg, on = values["red_spot_longitude_deg"], values["red_spot_on"]
        if (longitude_deg is None) != (on is None):
            raise ValueError("give both the longitude of the spot and the day it was seen there, or neither")
        profile = before or Profile()
        return evolve(
            profile,
            observer=values["observer"] or "",
            eye=evolve(profile.eye, **{name: values[name] for name in _EYE}),
            preferences=evolve(profile.preferences, **{name: values[name] for name in _PREFERENCES}),
            air=evolve(profile.air, **{name: values[name] for name in _AIR}),
            red_spot=None if on is None else RedSpot(longitude_deg=longitude_deg, on=on),
        )

    def after(self, thing: Profile) -> Profile:
        return thing

    def _take_usual_pupil(self, pupil_mm: float) -> None:
        self.begin_step()
        self.fill({"pupil_mm": pupil_mm}, "Take the typical pupil")

    def _add_hour(self, name: str, label: str, word: str) -> None:
        def write(value: str) -> str:
            return time_text(value, self.units.clock)

        self.add(TypedField(name, label, read=reads_time_or(word), write=write, letters=9))

    def step(self, field: Field) -> str:
        if field.name == "observer":
            return CHANGE_OBSERVER
        return change_step(field.label)
