"""The observer's eye, which decides how wide a beam is taken in and how near it must come."""

from attrs import field, frozen

from core.checks import within

# The widest pupil of a young eye in the dark, taken where the observer has not said (common practice).
USUAL_PUPIL_MM = 7.0
# With less, who keeps glasses on does not see the whole field (common practice).
GLASSES_RELIEF_MM = 15.0


@frozen(kw_only=True)
class Eye:
    """The observer's eye: its widest pupil in the dark, and what it wears."""

    pupil_mm: float = field(default=USUAL_PUPIL_MM, validator=within(2, 9, "mm"))
    glasses: bool = False
    astigmatism: bool = False

    @property
    def keeps_glasses_on(self) -> bool:
        """Whether glasses stay on at the eyepiece: the focuser makes up for all but astigmatism."""
        return self.glasses and self.astigmatism


USUAL_EYE = Eye()
