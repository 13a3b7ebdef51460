"""The question on the page "What can I make?", read from its form."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from werkzeug.datastructures import MultiDict

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.model import Spread
from stash.quantity import Quantity, read_length_or_nothing
from stash.sentences.regional import both_names
from stash.workroom import pattern_list, patterns
from stash.workroom.drafts import (
    Choice,
    Measure,
    about,
    all_options,
    key_of,
    makeable,
)
from stash.workroom.opening import Stash
from stash.workroom.questions.fitting import Asking, WashHabit, Weights
from stash.workroom.questions.orders import Order, is_draft, orders_for
from stash.workroom.searching import AIMS, GOOD, QUICK, THOROUGH, weights
from web.formatting import in_units, shown_as
from web.request_stash import reader, system
from web.texts import _, headed

OPTION = "option-"
OWN_LENGTH = ".length"
LOOKS = {f"{QUICK:g}": "a quick look", f"{GOOD:g}": "a good look",
         f"{THOROUGH:g}": "a thorough search"}
SOURCES = {"": "all from one cut", "apart": "each from whichever cut serves",
           "here": "only what needs no shopping at all"}
SPREADS = {"open": "open, in a single layer", "lengthwise": "folded lengthwise",
           "crosswise": "folded crosswise", "any": "however it takes least"}


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What was asked: garments for people, how they are made, and how to choose."""

    garments: tuple[str, ...]
    people: tuple[str, ...]
    options: Mapping[str, object]
    seconds: float = QUICK
    spread: Spread | None = Spread.OPEN
    weights: Weights = Weights()
    wash: WashHabit = WashHabit.FIRST
    only_cut: str | None = None
    giving_up: tuple[str, ...] = ()
    apart: bool = False
    without_buying: bool = False

    def orders(self, stash: Stash) -> tuple[Order, ...]:
        """The garments, each for its person."""
        return orders_for(stash, self.garments, self.people, self.options)

    def asking(self, stop) -> Asking:
        """How the question is put to the stash."""
        return Asking(
            seconds=self.seconds, spread=self.spread, weights=self.weights, stop=stop,
            only_cut=self.only_cut, giving_up=self.giving_up, wash=self.wash,
        )

    @property
    def about(self) -> Fact:
        """"Shirt and shorts for Bram Okell", in any language."""
        if not self.people:
            return fact("asked_things", garments=self.garments)
        return fact("asked_things_for", garments=self.garments, people=self.people)


def asked(values: MultiDict[str, str]) -> Asked:
    """The form as a question; InvalidInput names what is missing."""
    names = tuple(values.getlist("garment"))
    if not names:
        raise InvalidInput("choose_a_garment", field="garment")
    spread = values.get("spread", "open")
    return Asked(
        garments=names,
        people=tuple(values.getlist("person")),
        options=_options(values),
        seconds=float(values["seconds"]) if values.get("seconds") in LOOKS else QUICK,
        spread=None if spread == "any" else Spread(spread if spread in SPREADS else "open"),
        weights=weights([aim for aim in AIMS if aim.replace("-", "_") in values]),
        wash=WashHabit.AS_IT_LIES if "unwashed" in values else WashHabit.FIRST,
        only_cut=values.get("cut", "").strip() or None,
        giving_up=tuple(values.getlist("giving_up")),
        apart=values.get("from", "") in ("apart", "here"),
        without_buying=values.get("from", "") == "here",
    )


def _options(values: MultiDict[str, str]) -> dict[str, object]:
    known = all_options()
    chosen: dict[str, object] = {}
    for key, typed in values.items():
        name = key.removeprefix(OPTION)
        garment, dot, _option = name.rpartition(OWN_LENGTH)
        own = bool(dot) and garment in values.getlist("garment")
        if not key.startswith(OPTION) or not typed.strip() or not (own or name in known):
            continue
        if own or isinstance(known[name], Measure):
            chosen[name] = read_length_or_nothing(
                typed, Quantity.PATTERN, field=key, system=system())
        else:
            chosen[name] = typed
    return chosen


def option_rows(chosen: tuple[str, ...]) -> list[dict]:
    """The options of the chosen garments, each under its own garment when they are several."""
    infos = list(dict.fromkeys(about(g).name for g in chosen if is_draft(g)))
    rows = []
    for info in map(about, infos):
        for option in info.options:
            row = {"name": option.name, "label": headed(in_units(_(option.about))), "words": None}
            if len(infos) > 1:
                row["name"] = key_of(info.name, option.name)
                row["label"] = f"{_(info.title)}: {in_units(_(option.about))}"
            if isinstance(option, Choice):
                row["words"] = [("", _("as usual")),
                                *((w, w.replace("-", " ")) for w in option.words)]
            else:
                row["placeholder"] = _("as drafted") if option.default is None else (
                    shown_as(Quantity.PATTERN)(option.default))
            rows.append(row)
    return rows


def own_option_rows(stash: Stash, chosen: tuple[str, ...]) -> list[dict]:
    """How long each of her own patterns is to be cut, where it may be lengthened or shortened."""
    wanted, rows = {g for g in chosen if not is_draft(g)}, []
    for name, pattern in [(k.name, k.pattern) for k in pattern_list.everything(stash) if wanted]:
        if name in wanted and (mm := patterns.cut_long_mm(pattern)):
            rows.append({
                "name": name + OWN_LENGTH, "words": None,
                "label": f"{name}: {_('How long it is cut')}" if len(chosen) > 1
                else _("How long it is cut"),
                "placeholder": shown_as(Quantity.PATTERN)(mm)})
    return rows


def garment_choices(stash: Stash) -> list[tuple[str, str]]:
    """Everything that can be made: the drafts, then her own patterns."""
    return [(name, both_names(title, reader())) for name, title in makeable(stash)]
