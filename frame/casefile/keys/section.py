"""What the key models of every section are made of."""

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from frame.casefile.keys.fields import Choice, Quantity

Length = Annotated[float, Quantity("length")]
Wall = Annotated[float, Quantity("length", gauge=True)]
Offset = Annotated[float, Quantity("length", "not negative")]
Level = Annotated[float, Quantity("length", "any")]
Torque = Annotated[float, Quantity("torque")]
YesNo = Annotated[str, Choice(("no", "yes"))]


def key(description: str, default: Any = ..., **options: Any) -> Any:
    """Make a field with its description; a default written as text is read like the file's."""
    return Field(default, description=description, validate_default=default is not None, **options)


class Section(BaseModel):
    """A table of the file: no key but those listed."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def table_or_text(value: Any) -> str:
    """Tell a pipe or an anchor written as a table from one written as a name."""
    return "table" if isinstance(value, dict | Section) else "text"
