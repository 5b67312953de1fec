"""Paint: rates, losses, films and amounts. Areas in m², volumes in m³, films in m, rates in m²/m³.

A rate in m²/m³ is one over a thickness: 1 m²/L is 1000 m²/m³, or a wet film of 1 mm.
"""

from __future__ import annotations

from collections.abc import Iterable


class PaintError(ValueError):
    """Numbers that no paint can have; the message is the sentence to show."""


def net_area(gross: float, openings: Iterable[float], factor: float = 1.0) -> float:
    """Area to paint: what the openings leave, times how much more surface a rough wall has.

    ``factor`` from 1 (smooth) to about 1.6. Raises PaintError when the openings are larger.
    Source: a house-painting page’s example, 68 × 8 ft with two doors and two windows.

    >>> net_area(544.0, [20, 20, 15, 15])
    474.0
    """
    left = gross - sum(openings)
    if gross <= 0 or left < 0:
        raise PaintError("The openings are larger than the wall.")
    return left * factor


def film_rate(solids: float, dry: float) -> float:
    """Theoretical rate of one coat that dries to ``dry`` m, of a paint with ``solids`` by volume.

    Solids above 0 and up to 1. In US units 1604 · solids / mil, in metric 10 · solids in % / µm.
    Source: a coating maker’s sheet “Spreading rate”.

    >>> round(film_rate(0.40, 50e-6) / 1000, 6)  # m²/L
    8.0
    """
    return share(solids, "Solids") / thickness(dry)


def dry_film(solids: float, rate: float) -> float:
    """Film in m that a coat at ``rate`` leaves when it has dried; the inverse of film_rate.

    >>> round(dry_film(0.40, 8000.0) * 1e6, 6)  # µm
    50.0
    """
    return share(solids, "Solids") / rate_of(rate)


def wet_film(dry: float, solids: float, thinner: float = 0.0) -> float:
    """Film in m that a comb must read in the wet paint: dry · (1 + thinner) / solids.

    ``thinner`` is the volume added for each volume of paint. Source: an instrument maker’s page on
    wet and dry film thickness.

    >>> round(wet_film(125e-6, 0.35) * 1e6)
    357
    """
    return thickness(dry) * (1 + thinner) / share(solids, "Solids")


def wet_rate(wet: float) -> float:
    """Rate of a wet film in m without thinner: 1604 / mil in US units.

    >>> round(wet_rate(0.001))  # one litre a square metre
    1000
    """
    return 1 / thickness(wet)


def practical(rate: float, loss: float) -> float:
    """What is left of a rate when ``loss`` of the paint stays in the tray, the roller and the wind.

    Loss from 0 to below 1; one less loss is the transfer efficiency of a sprayer.

    >>> practical(8000.0, 0.25)
    6000.0
    """
    return rate_of(rate) * (1 - lost(loss))


def with_loss(volume: float, loss: float) -> float:
    """Paint to buy where ``volume`` must reach the wall. It divides: 100 at 25 % are 133.3.

    Source: Paints & Coatings Resource Center, question of December 2009.

    >>> round(with_loss(100.0, 0.25), 2)
    133.33
    """
    return volume / (1 - lost(loss))


def paint(area: float, rate: float, coats: float, loss: float, keep_back: float = 0.0) -> float:
    """Volume in m³ to buy, with ``keep_back`` more of it for touching up later.

    >>> round(paint(47.88, 8000.0, 2, 0.15) * 1000, 4)  # L
    14.0824
    """
    return with_loss(area * coats / rate_of(rate), loss) * (1 + keep_back)


def renewals(area: float, rate: float, coats: float, loss: float, cleanings: float) -> float:
    """Volume in m³ a year of a coat that comes off with what is cleaned off it.

    Source: painters’ training unit CPCCPD3029 on sacrificial coatings.

    >>> round(renewals(20.0, 8000.0, 2, 0.0, 3) * 1000, 6)
    15.0
    """
    return paint(area, rate, coats, loss) * cleanings


def share(value: float, what: str) -> float:
    if not 0 < value <= 1:
        raise PaintError(f"{what} are a share above 0 and up to 100 %.")
    return value


def thickness(value: float) -> float:
    if value <= 0:
        raise PaintError("A film is thicker than nothing.")
    return value


def rate_of(value: float) -> float:
    if value <= 0:
        raise PaintError("A spreading rate is above nothing.")
    return value


def lost(value: float) -> float:
    if not 0 <= value < 1:
        raise PaintError("A loss is a share from 0 to below 100 %.")
    return value
