"""What is believed of tonight's air: what was said of it, and what verdicts have taught since."""

from datetime import datetime

from core.air.blur import Blur, BlurSource
from core.air.first_look import FirstLook, ScaleStep
from core.ladder.aim import Aim
from core.ladder.belief import BAND, Belief, Evidence, believe
from core.ladder.evidence import evidence_of
from core.lazy import lazy
from core.record.log_entry import LogEntry
from core.situation.moment import Moment


class TonightsAir(Moment):
    """The air of the evening at the site in hand, whatever planet and telescope taught it."""

    @lazy
    def first_look(self) -> FirstLook | None:
        """The first look that tonight's blur was given by, or None when it was given as a figure."""
        said = self.said_blur
        if said.source is BlurSource.ASSUMED:
            return None
        if said.judged is not None:
            return said.judged.by if isinstance(said.judged.by, FirstLook) else None
        return self.profile.air.look_of(said.overhead_arcsec)

    @lazy
    def scale_step(self) -> ScaleStep | None:
        """The step of a scale that tonight's blur was given by, None for any other way."""
        judged = self.said_blur.judged
        return judged.by if judged is not None and isinstance(judged.by, ScaleStep) else None

    @lazy
    def evidence(self) -> tuple[Evidence, ...]:
        """The verdicts of the evening at the site in hand, in the order of time."""
        return evidence_of(self._verdicts_here)

    @lazy
    def last_verdict(self) -> LogEntry | None:
        """The last verdict of the evening at the site in hand, whatever it says."""
        # Of verdicts of the same moment the one that was written last.
        return max(reversed(self._verdicts_here), key=lambda entry: entry.at, default=None)

    @lazy
    def _verdicts_here(self) -> tuple[LogEntry, ...]:
        site_id = "" if self.site is None else self.site.id
        return tuple(
            entry for entry in self._verdicts if entry.evening == self.evening and entry.site_id == site_id
        )

    @lazy
    def belief(self) -> Belief:
        """What is believed of the overhead blur after the last verdict of the evening.

        It begins where the ladder does: what is assumed there with nothing said is assumed here too, so that
        the first verdict moves the ceiling only the way that it says.
        """
        return believe(self.evidence, first_look_arcsec=self.blur.overhead_arcsec)

    @lazy
    def has_taught(self) -> bool:
        """Whether any verdict of the evening says something of the air."""
        return any(each.weight > 0.0 for each in self.evidence)

    @lazy
    def blur_now(self) -> Blur:
        """The blur overhead of this minute: learned from verdicts where there are any, else what was said."""
        return self._learned_by(self.minute)

    def blur_along(self, aim: Aim) -> Blur:
        """Return the blur overhead at the moment of an aim, of this minute where it has none."""
        return self._learned_by(aim.at or self.minute)

    def _learned_by(self, moment: datetime) -> Blur:
        if not self.has_taught:
            return self.blur
        belief = self.belief.faded(moment.timestamp())
        finest, coarsest = (belief.blur_arcsec(quantile) for quantile in BAND)
        return Blur(
            overhead_arcsec=belief.blur_arcsec(0.5),
            source=BlurSource.VERDICTS,
            likely_arcsec=(finest, coarsest),
        )
