"""Cuts and bins on the scale, rolls and boards by their turns: answered, and put on record."""

from __future__ import annotations

from dataclasses import dataclass

from stash.errors import InvalidInput
from stash.eye.weighing.mass_per_area import by_cut, by_label, by_swatch
from stash.eye.weighing.moisture import moisture_share
from stash.eye.weighing.roll import board_length, rolled_length
from stash.eye.weighing.scale import Scale
from stash.eye.weighing.weighed_bin import Known, count_by_weight, enough, strip_by_weight
from stash.eye.weighing.weighed_length import ByWeight, WeighedCloth, length_by_weight
from stash.fact import Fact, fact
from stash.ledger import Entry, Event, Kind
from stash.ledger.shapes import resized
from stash.model import Cut
from stash.model.measured import Measured
from stash.store import Stash
from stash.workroom.figures import keep_figure, spare_better

USELESS_SHARE = 0.2  # by which a presumed weight may be out itself

__all__ = [
    "ByWeight", "Known", "Scale", "board_length", "by_label", "by_swatch", "enough",
    "rolled_length",
]


@dataclass(frozen=True, kw_only=True)
class WeighedCut:
    """A cut's length by weight, and the mass per area that it was reckoned with."""

    answer: ByWeight
    mass_gsm: Measured


def weigh_cut(
    stash: Stash, code: str, grams: float, scale: Scale, mass_gsm: Measured | None = None,
    like: str | None = None,
) -> WeighedCut:
    """How long a cut is by its weight; by a cut ``like`` it, else by the best figure there is.

    Raises InvalidInput when nothing says what its cloth weighs.
    """
    cut = stash.cuts.get(code)
    mass = mass_gsm or mass_of(stash, cut, like)
    fibres = {share.fibre: share.percent for share in cut.cloth.fibres}
    answer = length_by_weight(WeighedCloth(
        grams=grams, width_mm=cut.width_mm, mass_gsm=mass,
        moisture_share=moisture_share(fibres), scale=scale))
    return WeighedCut(answer=answer, mass_gsm=mass)


def weigh_swatch(
    stash: Stash, code: str, grams: float, scale: Scale, token: str | None = None
) -> tuple[Measured, Event]:
    """A cut whose size on record is true is weighed: what its cloth weighs, in g/m2, is kept.

    A weight that was presumed of the cloth, or not known, gives way to it. Raises InvalidInput
    where the scale is too coarse for so small a cut.
    """
    cut = stash.cuts.get(code)
    mass = by_cut(cut.outline.area_mm2, grams, scale)
    if mass.share > USELESS_SHARE:
        raise InvalidInput("cut_too_light_for_scale", error_pct=round(100 * mass.share),
                           field="known_grams")
    change = {_weight_subject(cut.code): {"record": {
        "grams": grams, "step_g": scale.step_g, "area_mm2": cut.outline.area_mm2}}}
    with stash.act(token) as act:
        stash.ledger.write(lambda: Entry(kind=Kind.CORRECTION, code=cut.code, change=change))
        if cut.cloth.mass_gsm is None or "mass_gsm" in cut.cloth.presumed:
            stash.cloths.correct(cut.code, cut.cloth.told(mass_gsm=float(round(mass.value))))
    event = act.event or act.earlier
    assert event is not None
    return mass, event


def record_length(
    stash: Stash, code: str, figure: Measured, token: str | None = None, *, replace: bool = False
) -> Event | None:
    """A length that was weighed or rolled goes on record; its outline is scaled to it.

    Raises SurerFigure where a better figure is on record, unless told to ``replace`` it.
    """
    with stash.act(token) as act:
        cut = stash.cuts.get(code)
        if not replace:
            spare_better(stash, cut.code, cut.outline.length_mm, figure)
        stash.cuts.remeasure(code, resized(cut.outline, figure.value, cut.width_mm),
                             width_presumed=cut.width_presumed)
        keep_figure(stash, cut.code, figure, Kind.REMEASURE)
    return act.event or act.earlier


def by_turns(figure: Measured, turns: float) -> Fact:
    """Why a rolled length is what it is, and how far it may be out."""
    return fact("length_by_turns", turns=turns, mean_mm=figure.value / turns,
                error_pct=round(100 * figure.share, 1))


def weigh_bin(
    stash: Stash, code: str, grams: float, scale: Scale, known: Known, empty_g: float = 0.0
) -> ByWeight:
    """How much is in a bin by its weight, against what a known amount of it weighs."""
    notion = stash.bins.get(code).notion
    if notion.kind.counted:
        return count_by_weight(grams, known, scale, empty_g)
    return strip_by_weight(grams, known, scale, moisture_share({}) / 2, empty_g)


def record_amount(
    stash: Stash, code: str, figure: Measured, token: str | None = None, *, replace: bool = False
) -> Event | None:
    """An amount that was weighed goes on record.

    Raises SurerFigure where a better figure is on record, unless told to ``replace`` it.
    """
    with stash.act(token) as act:
        held = stash.bins.get(code)
        if not replace:
            spare_better(
                stash, held.code, held.amount, figure, counted=held.notion.kind.counted)
        stash.bins.count(code, figure.value)
        keep_figure(stash, held.code, figure, Kind.COUNT)
    return act.event or act.earlier


def mass_of(stash: Stash, cut: Cut, like: str | None = None) -> Measured:
    """What a square metre of its cloth weighs: a weighed cut of it before the label.

    Raises InvalidInput where nothing says.
    """
    if like:
        other = stash.cuts.get(like)
        found = _weighed(stash, other.code)
        if found is None and other.cloth.mass_gsm:
            found = by_label(other.cloth.mass_gsm)
        if found is None:
            raise InvalidInput("like_not_weighed", code=other.code, field="like")
        return found
    subject = stash.cuts.card(cut.code).cloth
    codes = [cut.code, *stash.cuts.of_cloth(subject)]
    weighed = [mass for code in codes if (mass := _weighed(stash, code))]
    if weighed:
        return min(weighed, key=lambda mass: mass.share)
    if cut.cloth.mass_gsm and "mass_gsm" not in cut.cloth.presumed:
        return by_label(cut.cloth.mass_gsm)
    raise InvalidInput("mass_of_cloth_unknown", name=cut.cloth.name, field="mass")


def _weighed(stash: Stash, code: str) -> Measured | None:
    record = stash.ledger.state(_weight_subject(code))
    if not isinstance(record, dict):
        return None
    return by_cut(record["area_mm2"], record["grams"], Scale(step_g=record["step_g"]))


def _weight_subject(code: str) -> str:
    return f"weight:{code}"
