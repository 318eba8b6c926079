"""What the plan may offer: every thing has its trouble told, bracing too."""

from frame.changes.series import Thing
from frame.tables.reader import rows

FITTED = ("fit knees", "fit ties", "fit stays", "fit guys")


def test_every_thing_that_can_be_changed_has_a_row_of_its_trouble() -> None:
    told = {row["change"] for row in rows("plan_work")}
    assert told == {*FITTED, *(thing.value for thing in Thing)}
