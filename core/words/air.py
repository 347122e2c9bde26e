"""Tonight's air in words: how far it blurs, and where that figure comes from."""

from typing import Final

from core.air.steadiness import Blur, BlurSource
from core.words.quantities import trimmed_text

# Below this a blur is told to a hundredth of an arcsecond, above to a tenth.
_HUNDREDTHS_BELOW_ARCSEC: Final = 2.0

_SOURCES: Final = {
    BlurSource.ASSUMED: "assumed fair",
    BlurSource.GIVEN: "as given",
    BlurSource.LOG: "from your verdicts",
}
_BRIEFLY: Final = {
    BlurSource.ASSUMED: "blur {blur}, assumed",
    BlurSource.GIVEN: "blur {blur}",
    BlurSource.LOG: "blur {blur}, from your verdicts",
}
_OVERHEAD: Final = "blur {blur} overhead, {source}"


def blur_text(blur: Blur) -> str:
    """Return the figure of a blur overhead: ``1.45″``, ``3″``."""
    arcsec = blur.overhead_arcsec
    return f"{trimmed_text(arcsec, 2 if arcsec < _HUNDREDTHS_BELOW_ARCSEC else 1)}″"


def source_text(blur: Blur) -> str:
    """Return where the figure of a blur comes from: ``as given``."""
    return _SOURCES[blur.source]


def blur_words(blur: Blur) -> str:
    """Return a blur in few words, its source only where that is not the owner: ``blur 1.45″, assumed``."""
    return _BRIEFLY[blur.source].format(blur=blur_text(blur))


def overhead_blur_words(blur: Blur) -> str:
    """Return a blur and its source: ``blur 1.45″ overhead, assumed fair``."""
    return _OVERHEAD.format(blur=blur_text(blur), source=source_text(blur))
