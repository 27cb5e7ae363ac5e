"""How a schema says what a field is: each constructor asks for a description and an example, a number for its unit.

    class SiteAsked(Asked):
        width_ft = number("Width of the planting space.", unit="ft", example=12, low=1, high=5000)
        drainage = choice("How water leaves the ground.", values=("good", "poor"), example="good")

`Asked` is for what a client sends: a field that it does not know is an error that names the nearest one. An optional
field may be left out or be null; both mean that nobody knows. `Told` is for what we answer and only documents.
"""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from typing import Any, ClassVar, TypedDict, Unpack

import marshmallow as ma
from marshmallow import validate

from service.api.field_kinds import Among, Day, Flag, Number, Shape, Whole, Within

MONTH_DAY = r"(0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|1[0-9]|2[0-9])"
UNKNOWN = "Unknown field."
NO_OBJECT: dict[str, Any] = {"type": "This must be an object."}
NO_TEXT: dict[str, Any] = {"invalid": "This must be text."}


class Worded(ma.Schema):
    """A schema in which a field named after a word of Python ends in an underscore (`from_`), but not in the JSON."""

    def on_bind_field(self, field_name: str, field_obj: ma.fields.Field[Any]) -> None:
        """Take the underscore off."""
        if field_name.endswith("_"):
            field_obj.data_key = field_name.rstrip("_")


class Asked(Worded):
    """What a client sends as JSON."""

    from_query: ClassVar[bool] = False

    class Meta:
        """Fields that nobody documented are refused."""

        unknown = ma.RAISE

    def handle_error(self, error: ma.ValidationError, data: Any, *, many: bool, **kwargs: Any) -> None:
        """Put the nearest known name into the sentence for a field that is not known."""
        names = [field.data_key or name for name, field in self.fields.items()]
        places = error.messages.values() if many else [error.messages]  # type: ignore[union-attr]
        for place in places:
            for name, found in list(place.items()) if isinstance(place, dict) else []:
                if found == [UNKNOWN]:
                    place[name] = [not_known(str(name), names)]


class AskedInQuery(Asked):
    """What a client sends in the query string: numbers come as text, and nothing is null."""

    from_query: ClassVar[bool] = True

    def on_bind_field(self, field_name: str, field_obj: ma.fields.Field[Any]) -> None:
        """A query string cannot say null."""
        super().on_bind_field(field_name, field_obj)
        field_obj.allow_none = False


class Told(Worded):
    """What we answer; documents the answer and is held to it by the contract tests."""

    class Meta:
        """A client must bear fields that a later version adds."""

        unknown = ma.INCLUDE


def not_known(name: str, names: Sequence[str]) -> str:
    """The sentence for a field that nobody documented.

    >>> not_known("widht_ft", ["width_ft", "depth_ft"])
    "This field is not known; did you mean 'width_ft'?"
    """
    near = difflib.get_close_matches(name, names, n=1)
    if near:
        return f"This field is not known; did you mean '{near[0]}'?"
    return "This field is not known. Known here: " + ", ".join(sorted(names)) + "."


class Options(TypedDict, total=False):
    """What every field may say; an optional field may be null unless `nullable` says otherwise."""

    required: bool
    nullable: bool


class Bounds(Options, total=False):
    """The ends of a number that are still taken."""

    low: float
    high: float


class Wording(Options, total=False):
    """Limits of a text; `pattern` must match from end to end, and `wants` says so to a person."""

    longest: int
    pattern: str
    wants: str


class Size(Options, total=False):
    """Limits of a list."""

    least: int
    most: int


class Listed(Size, total=False):
    """What a nested object or a list of objects may say besides."""

    example: Any


def number(description: str, *, unit: str, example: float, **options: Unpack[Bounds]) -> Number:
    """A number with a unit."""
    return Number(
        validate=_within(unit, options),
        error_messages={"invalid": "This must be a number.", "special": "This must be a number."},
        **_said(description, example, options, unit),
    )


def whole(description: str, *, unit: str, example: int, **options: Unpack[Bounds]) -> Whole:
    """A whole number with a unit (`count` where it merely counts)."""
    return Whole(
        validate=_within(unit, options),
        error_messages={"invalid": "This must be a whole number."},
        **_said(description, example, options, unit),
    )


def text(description: str, *, example: str, **options: Unpack[Wording]) -> ma.fields.String:
    """Text of at most 200 characters unless `longest` says otherwise."""
    longest = options.get("longest", 200)
    checks: list[Any] = [validate.Length(max=longest, error=f"At most {longest} characters are taken.")]
    if "pattern" in options:
        checks.append(Shape(options["pattern"], options.get("wants", "This does not have the form taken here.")))
    return ma.fields.String(validate=checks, error_messages=NO_TEXT, **_said(description, example, options))


def name_text(description: str, *, example: str, **options: Unpack[Options]) -> ma.fields.String:
    """A name that a person types: 1 to 100 characters."""
    wanted = "1 to 100 characters are taken; leave the field out where the name is not known."
    checks = [validate.Length(min=1, max=100, error=wanted)]
    return ma.fields.String(validate=checks, error_messages=NO_TEXT, **_said(description, example, options))


def choice(
    description: str, *, values: Sequence[str], example: str | None = None, **options: Unpack[Options]
) -> ma.fields.String:
    """One word of a list."""
    shown = values[0] if example is None else example
    return ma.fields.String(
        validate=[Among(tuple(values))], error_messages=NO_TEXT, **_said(description, shown, options)
    )


def flag(description: str, *, example: bool = True, **options: Unpack[Options]) -> Flag:
    """True or false."""
    return Flag(error_messages={"invalid": "This must be true or false."}, **_said(description, example, options))


def date_text(description: str, *, example: str = "2026-03-20", **options: Unpack[Options]) -> Day:
    """A date as text, such as 2026-03-20."""
    said = _said(description, example, options)
    said["metadata"]["format"] = "date"
    return Day(error_messages={"invalid": "This must be a date such as 2026-03-20."}, **said)


def month_day(description: str, *, example: str = "03-20", **options: Unpack[Options]) -> ma.fields.String:
    """A day of the year without the year, such as 03-20 (month first)."""
    wants = "This must be a month and a day such as 03-20."
    return text(description, example=example, longest=5, pattern=MONTH_DAY, wants=wants, **options)


def list_of(
    inner: ma.fields.Field[Any], description: str, *, example: Sequence[Any], **options: Unpack[Size]
) -> ma.fields.List[Any]:
    """A list of like things."""
    inner.allow_none = False
    return ma.fields.List(
        inner,
        validate=_counted(options),
        error_messages={"invalid": "This must be a list."},
        **_said(description, list(example), options),
    )


def nested(
    schema: type[ma.Schema], description: str, *, many: bool = False, **options: Unpack[Listed]
) -> ma.fields.Nested:
    """An object (with `many`, a list of them) that another schema describes, with its examples if none is given."""
    example = options.get("example")
    said = _said(description, example, options)
    if example is None:
        del said["metadata"]["examples"]
    checks = _counted(options) if many else []
    return ma.fields.Nested(schema, many=many, validate=checks, error_messages=NO_OBJECT, **said)


def _counted(options: Size) -> list[Any]:
    least, most = options.get("least"), options.get("most")
    if least is None and most is None:
        return []
    error = f"At least {least} are needed." if most is None else f"{least or 0} to {most} entries are taken."
    return [validate.Length(min=least, max=most, error=error)]


def _within(unit: str, options: Bounds) -> list[Any]:
    low, high = options.get("low"), options.get("high")
    return [] if low is None and high is None else [Within(low, high, unit)]


def _said(description: str, example: Any, options: Options, unit: str | None = None) -> dict[str, Any]:
    metadata: dict[str, Any] = {"description": description, "examples": [example]}
    if unit is not None:
        metadata["x-unit"] = unit
    required = options.get("required", False)
    return {"required": required, "allow_none": options.get("nullable", not required), "metadata": metadata}
