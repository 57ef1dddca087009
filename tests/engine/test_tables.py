import pytest

from engine.api.standard import physics
from engine.errors import BadTable
from engine.tables import number, parse, rows

GOOD = "# source: a\n# table: b\n# units: c\nname,value\nx,1.5\n"


def test_reads_rows_and_numbers() -> None:
    (row,) = parse("t", GOOD)
    assert number("t", row, "value") == 1.5


@pytest.mark.parametrize(
    "text",
    [
        GOOD.replace("# source: a\n", ""),
        GOOD.replace("# units: c\n", ""),
        GOOD.replace("x,1.5\n", ""),
        GOOD.replace("x,1.5", "x"),
        GOOD.replace("x,1.5", "x,1,2"),
    ],
)
def test_refuses_tables_that_hide_something(text: str) -> None:
    with pytest.raises(BadTable):
        parse("t", text)


def test_refuses_what_is_no_number_and_what_is_no_table() -> None:
    (row,) = parse("t", GOOD)
    for column in ("name", "other"):
        with pytest.raises(BadTable):
            number("t", row, column)
    with pytest.raises(BadTable):
        rows("no_such_table")


def test_every_table_of_the_engine_is_whole() -> None:
    found = physics()
    assert found.swings[0].kind == "full"
    assert {rule.kind for rule in found.lies} >= {"tee", "fairway", "rough", "fairway_bunker"}
    assert len(found.grounds) == 12
