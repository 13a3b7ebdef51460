"""The JSON that pages answer with, each as a JSON Schema (draft 2020-12) with its units."""

from __future__ import annotations

from typing import Any

Shape = dict[str, Any]


def text(says: str) -> Shape:
    """A text."""
    return {"type": "string", "description": says}


def number(says: str, **more: Any) -> Shape:
    """A number."""
    return {"type": "number", "description": says, **more}


def count(says: str) -> Shape:
    """A whole number from nought."""
    return {"type": "integer", "minimum": 0, "description": says}


def listed(of: Shape, says: str, **more: Any) -> Shape:
    """A list."""
    return {"type": "array", "items": of, "description": says, **more}


def whole(says: str, **fields: Shape) -> Shape:
    """An object of just these fields, all of them there."""
    return {"type": "object", "description": says, "properties": fields,
            "required": list(fields), "additionalProperties": False}


FACT: Shape = {
    "type": "object", "required": ["kind"], "properties": {"kind": text("What is so.")},
    "description": "What is said, for a program: a number carries its unit in its name.",
}
REFUSAL = whole(
    "Why something was not done.", error=text("One sentence, in the reader's language."),
    fact={"oneOf": [FACT, {"type": "null"}]},
    field={"type": ["string", "null"], "description": "The field it is about."})
LABEL = whole(
    "What a label is on.", code=text("The six letters of the label."),
    what={"enum": ["cut", "bin", "place", "blank", "unknown"], "description": "What it is on."},
    name=text("Its name."), detail=text("Its size or amount, as a person reads it."),
    place=text("Where it lies; empty when that is not known."), url=text("Its page."))
STATE = whole(
    "How a search stands.",
    state={"enum": ["waiting", "working", "done", "failed", "cancelled"], "description": "State."},
    over={"type": "boolean", "description": "Nothing more will change."},
    done=count("Steps done."), total=count("Steps in all; 0 when that is not known."),
    place=count("Its place among those that wait, the next one being 1; 0 once begun."),
    seconds=count("How long it has waited, or worked since."),
    version=text("Changes whenever there is anything new."))
SEEN = whole(
    "What a stock-take has seen.", codes=listed(text("A code."), "The labels that were read."),
    go={"type": ["string", "null"], "description": "The page of the place whose label it was."})
_PIXELS = listed(number("Pixels."), "x and y in pixels.", minItems=2, maxItems=2)
BETWEEN = whole(
    "What lies between two places of a photograph.",
    length_mm=number("Millimetres.", minimum=0),
    error_mm=number("How far that may be out, in millimetres.", minimum=0),
    said=text("The length as a person reads it."),
    ends_px=listed(_PIXELS, "Where each place was moved to.", minItems=2, maxItems=2))
COLOURED = whole(
    "The colours at one or two places of a photograph.",
    colours=listed(whole("A colour.", colour=text("#rrggbb by daylight."),
                         name=text("Its nearest name, in the reader's language.")),
                   "That at each place.", minItems=1, maxItems=2),
    error_de00=number("Nine in ten lie within so much of it (CIEDE2000).", minimum=0),
    light=text("daylight, warm, or unknown where no greys were seen."),
    light_said=text("What the light makes of the colour, as a person reads it."),
    like=text("The page of what is in the stash of about the first colour."),
    apart_de00={"type": ["number", "null"], "minimum": 0,
                "description": "How two colours differ (CIEDE2000)."},
    apart_error_de00={"type": ["number", "null"], "minimum": 0,
                      "description": "How far that may be out."},
    apart_said=text("The difference as a person reads it; empty for one colour."),
    match_said=text("Whether the two go together; empty for one colour."))
SEEN_CUT = whole(
    "What a photograph shows of a cut.",
    code=text("The blank label in it; empty where there is none."),
    colour=text("#rrggbb in its middle; empty where it cannot be told."),
    name=text("The nearest name of that colour, in the reader's language."),
    error_de00=number("How far the colour may be out (CIEDE2000).", minimum=0))
DOCUMENT: Shape = {"type": "object", "description": "This description."}
KEPT_LIST = whole(
    "What a device may keep to read without a network.",
    as_of=text("Changes whenever the record, the language or the role did."),
    pages=listed(text("An address."), "The pages it may keep."))
_KEPT_CUT = whole(
    "A cut in one line.", code=text("The code of its label."), name=text("Its cloth."),
    size=text("Its size as a person reads it."),
    whole_mm=listed(count("Millimetres."), "Length and width of what is whole of it.",
                    minItems=2, maxItems=2),
    fibres=text("What it is made of."), mass=text("Its weight as a person reads it."),
    mass_gsm={"type": ["number", "null"], "description": "Its weight, grams a square metre."},
    colours=listed(text("#rrggbb."), "Its colours."), place=text("Where it lies."),
    washed={"type": "boolean", "description": "Whether it was washed."},
    held_for=listed(text("A plan."), "The plans that hold it."))
_KEPT_BIN = whole(
    "A bin in one line.", code=text("The code of its label."), name=text("What is in it."),
    kind=text("What kind of notion."), amount=text("How much, as a person reads it."),
    counted={"type": "boolean", "description": "Whether it is counted; else it has a length."},
    colours=listed(text("#rrggbb."), "Its colours."), place=text("Where it stands."))
_KNOWN_NEED = whole(
    "A lay that is known.", what=text("The plan or the list, and the cloth."),
    width_mm=number("The narrowest cloth for it, in millimetres.", minimum=0),
    length_mm=number("How long it is once washed, in millimetres.", minimum=0))
KEPT_LINES = whole(
    "Every cut and bin in one line each.", cuts=listed(_KEPT_CUT, "Cuts."),
    bins=listed(_KEPT_BIN, "Bins."),
    needs=listed(_KNOWN_NEED, "What plans and shopping lists need of cloth."))
