"""What a person decides once: units, cutting margins, what her shop sells, her printer.

Every door reads the settings here, and writes them here: the page of settings and
``lengthwise settings`` know the same names and the same limits.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from stash.errors import InvalidInput, NotFound, StashError
from stash.ledger import Event
from stash.match.shop.lengths import INCREMENT_MM, SELVEDGE_MM, WIDTHS_SOLD_MM
from stash.model import Spread
from stash.model.address import tidy
from stash.model.cloth import REMNANT_MM
from stash.notions.machines import Machine
from stash.quantity import Quantity, listed, read_length, read_length_or_nothing
from stash.sentences import Reader
from stash.sentences.reader import LANGUAGES, spoken
from stash.store import Stash
from stash.units import INCH_MM, System
from stash.workroom.labels import name_of
from stash.workroom.opening import has_stash, open_stash

if TYPE_CHECKING:
    from stash.match.strip_lays import Table

WIDEST_MARGIN_MM = 100.0
MOST_TILT_DEG = 15.0
MOST_SHIFT_MM = 20.0
MOST_WIDTHS = 12
USUAL_REMNANT_MM = {System.METRIC: REMNANT_MM, System.INCHES: 6 * INCH_MM}
WIDEST_REMNANT_MM = 1000.0


@dataclass(frozen=True, kw_only=True)
class Preferences:
    """Everything decided, with the usual value where nothing was.

    ``address`` is None until it is known; ``older_addresses`` are still answered.
    """

    units: System
    language: str
    address: str | None
    older_addresses: tuple[str, ...]
    edge_mm: float
    clearance_mm: float
    off_grain_deg: float
    widths_mm: tuple[float, ...]
    increment_mm: float
    selvedge_mm: float
    printer_shift_mm: tuple[float, float]
    remnant_mm: float
    machines: tuple[Machine, ...] = ()

    def to_json(self) -> dict[str, object]:
        """Every setting by its name, in millimetres and degrees."""
        return {
            "units": self.units.value, "language": self.language, "address": self.address,
            "edge_mm": self.edge_mm,
            "clearance_mm": self.clearance_mm, "off_grain_deg": self.off_grain_deg,
            "widths_mm": list(self.widths_mm), "increment_mm": self.increment_mm,
            "selvedge_mm": self.selvedge_mm, "printer_shift_mm": list(self.printer_shift_mm),
            "machines": [machine.value for machine in self.machines],
            "remnant_mm": self.remnant_mm,
        }


def preferences(stash: Stash) -> Preferences:
    """The settings as they stand."""
    kept = stash.settings.all()
    units = System(kept.get("units", System.METRIC.value))
    across, down = kept.get("printer_shift_mm", (0.0, 0.0))
    addresses = stash.settings.addresses
    return Preferences(
        units=units, language=str(kept.get("language", "")),
        address=addresses[0] if addresses else None,
        older_addresses=tuple(addresses[1:]),
        edge_mm=float(kept.get("edge_mm", 0.0)),
        clearance_mm=float(kept.get("clearance_mm", 0.0)),
        off_grain_deg=float(kept.get("off_grain_deg", 0.0)),
        widths_mm=tuple(map(float, kept.get("widths_mm", WIDTHS_SOLD_MM[units]))),
        increment_mm=float(kept.get("increment_mm", INCREMENT_MM[units])),
        selvedge_mm=float(kept.get("selvedge_mm", SELVEDGE_MM)),
        printer_shift_mm=(float(across), float(down)),
        machines=tuple(Machine(name) for name in kept.get("machines", ())),
        remnant_mm=float(kept.get("remnant_mm", USUAL_REMNANT_MM[units])),
    )


def units(stash: Stash) -> System:
    """The units this person reads."""
    return System(stash.settings.get("units", System.METRIC.value))


def units_open(stash: Stash) -> bool:
    """True while no units were chosen and nothing measured is on record: then she is asked."""
    return stash.settings.get("units") is None and not (
        stash.cuts.how_many() or stash.bins.how_many() or stash.people.all())


def choose_units(stash: Stash, typed: str, token: str | None = None) -> Event:
    """Decide the units before the first length; the usual ones are recorded as chosen too.

    InvalidInput for units that are not known.
    """
    return stash.settings.set("units", _units(typed, "units", System.METRIC).value, token)


def addresses(stash: Stash) -> tuple[str, ...]:
    """Every address this workroom's labels carry, the present one first."""
    return tuple(stash.settings.addresses)


def reader(stash: Stash, asked: str = "en") -> Reader:
    """For whom sentences are made; ``asked`` is the language where she has chosen none."""
    return Reader(units(stash), stash.settings.get("language") or asked,
                  partial(name_of, stash))


def reader_of(data: Path) -> Reader:
    """Whom answers about the stash in this folder are for; metric before there is one."""
    try:
        if has_stash(data):
            with open_stash(data, device="command line") as stash:
                return replace(reader(stash, spoken()), name_of=partial(_name_in, data))
    except StashError:  # a record that cannot be opened must still be spoken of
        pass
    return Reader(System.METRIC, spoken())


def _name_in(data: Path, code: str) -> str:
    """What bears the label, asked of a record that the command has closed again."""
    try:
        with open_stash(data, device="command line") as stash:
            return name_of(stash, code)
    except StashError:
        return ""


def habits(stash: Stash, spread: Spread | None = Spread.OPEN) -> Table:
    """How this person lays: her cutting margins and her tilt off the grain."""
    from stash.match.strip_lays import Table  # the lay is loaded with the first question

    known = preferences(stash)
    return Table(
        spread=spread, clearance_mm=known.clearance_mm, edge_mm=known.edge_mm,
        off_grain_deg=known.off_grain_deg,
    )


def change(
    stash: Stash, typed: Mapping[str, str], token: str | None = None, *,
    reads: System = System.METRIC,
) -> tuple[Preferences, Event | None]:
    """Set what was typed, by name; all of it is one event, or none of it is recorded.

    A bare number is centimetres (``stash.quantity``), and asked for its unit of whoever
    ``reads`` inches. NotFound for a name that is no setting, InvalidInput for a value that
    cannot be.
    What is typed as it already stands is not recorded again.
    """
    values = {_full(name): READERS[_full(name)](text, name, reads) for name, text in typed.items()}
    before = preferences(stash)
    after = replace(before, **values)  # type: ignore[arg-type]  # each reader gives its own type
    with stash.act(token) as act:
        for name in values:
            if getattr(after, name) != getattr(before, name):
                _keep(stash, name, after)
    return preferences(stash), act.event or act.earlier


def _keep(stash: Stash, name: str, after: Preferences) -> None:
    if name == "address":
        stash.settings.set_address(after.address or "")
    else:
        stash.settings.set(name, after.to_json()[name])


def _full(name: str) -> str:
    """"edge" is "edge_mm": what is typed has its own unit."""
    for full in (name, f"{name}_mm", f"{name}_deg"):
        if full in READERS:
            return full
    raise NotFound("no_such_setting", typed=name, known=tuple(READERS))


def _units(text: str, field: str, reads: System) -> System:
    try:
        return System(text.strip().lower())
    except ValueError:
        raise InvalidInput("not_units", typed=text.strip()[:40], field=field) from None


def _language(text: str, field: str, reads: System) -> str:
    """One of LANGUAGES; empty leaves it to the browser."""
    if (typed := text.strip().lower()) and typed not in LANGUAGES:
        raise InvalidInput("not_a_language", typed=typed[:40], known=LANGUAGES, field=field)
    return typed


def _address(text: str, field: str, reads: System) -> str:
    return tidy(text)


def _margin(text: str, field: str, reads: System) -> float:
    margin_mm = read_length_or_nothing(text or "0", Quantity.MARGIN, field=field, system=reads)
    if margin_mm > WIDEST_MARGIN_MM:
        raise InvalidInput("margin_too_wide", most_mm=WIDEST_MARGIN_MM, field=field)
    return margin_mm


def _step(text: str, field: str, reads: System) -> float:
    if text.strip() in ("", "0"):
        raise InvalidInput("step_wanted", field=field)
    return read_length(text, Quantity.STEP, field=field, system=reads)


def _least(text: str, field: str, reads: System) -> float:
    least_mm = read_length(text, Quantity.STEP, field=field, system=reads)
    if least_mm > WIDEST_REMNANT_MM:
        raise InvalidInput("remnant_too_large", most_mm=WIDEST_REMNANT_MM, field=field)
    return least_mm


def _tilt(text: str, field: str, reads: System) -> float:
    return _number(text.replace(",", "."), field, 0.0, MOST_TILT_DEG)


def _widths(text: str, field: str, reads: System) -> tuple[float, ...]:
    sold = [
        read_length(width, Quantity.WIDTH, field=field, system=reads)
        for width in listed(text)
    ]
    if not 0 < len(sold) <= MOST_WIDTHS:
        raise InvalidInput("widths_wanted", most=MOST_WIDTHS, field=field)
    return tuple(sorted(sold))


def _machines(text: str, field: str, reads: System) -> tuple[Machine, ...]:
    """Names of machines, separated by commas; empty when she has not said."""
    named = [name.strip().lower() for name in text.split(",") if name.strip()]
    known = [machine.value for machine in Machine]
    for name in named:
        if name not in known:
            raise InvalidInput("not_a_machine", typed=name[:40], known=tuple(known), field=field)
    return tuple(machine for machine in Machine if machine.value in named)


def _shift(text: str, field: str, reads: System) -> tuple[float, float]:
    sides = text.split(",")
    if len(sides) != 2:
        raise InvalidInput("shift_wanted", most=MOST_SHIFT_MM, field=field)
    across, down = (_number(side, field, -MOST_SHIFT_MM, MOST_SHIFT_MM) for side in sides)
    return across, down


def _number(text: str, field: str, least: float, most: float) -> float:
    try:
        value = float(text.strip() or "0")
    except ValueError:
        value = float("nan")
    if not least <= value <= most:
        raise InvalidInput(
            "number_between", typed=text.strip()[:40], least=least, most=most, field=field)
    return value


READERS: dict[str, Callable[[str, str, System], object]] = {
    "units": _units, "language": _language, "address": _address, "edge_mm": _margin,
    "clearance_mm": _margin,
    "off_grain_deg": _tilt, "widths_mm": _widths, "increment_mm": _step,
    "selvedge_mm": _margin, "printer_shift_mm": _shift,
    "machines": _machines, "remnant_mm": _least,
}
