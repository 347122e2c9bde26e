"""Which telescopes stand outside, and since when."""

from datetime import date, datetime

from attrs import frozen

# An evening, the id of a site, and the id of a telescope.
Spot = tuple[date, str, str]


@frozen
class Outside:
    """Since when a telescope stands outside, and how much warmer than the air it was; None is assumed."""

    since: datetime
    warmer_by_c: float | None


class TelescopesOutside:
    """What was said about telescopes outside, each in its own evening and place.

    Looking at another evening or telescope shows nothing of it, and coming back shows it again.
    """

    def __init__(self) -> None:
        self._known: dict[Spot, Outside] = {}

    def of(self, spot: Spot) -> Outside | None:
        """Return what was said of a telescope, None where nothing was or it was taken back."""
        return self._known.get(spot)

    def note(self, spot: Spot, since: datetime | None, warmer_by_c: float | None) -> None:
        """Note since when a telescope stands outside, or with None that it does not."""
        if since is None:
            self._known.pop(spot, None)
        else:
            self._known[spot] = Outside(since, warmer_by_c)

    def forget(self) -> None:
        """Forget all, since another observer's telescopes are in hand."""
        self._known.clear()
