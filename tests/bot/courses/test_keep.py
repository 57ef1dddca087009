from pathlib import Path

import pytest

from bot import app
from bot.__main__ import main
from bot.model.state import Course, Trip
from bot.storage.memory import MemoryStore
from bot.turn.desk import key_of

FILE = 'name = "Marram Point"\ntee = "white"\n[[hole]]\nnumber = {n}\npar = 4\nlength = {long}\n'


def kept(store: MemoryStore) -> Course:
    key = key_of(Course, ("me", "marram point/white"))
    return Course.model_validate_json(store.load([key])[key].body)


def test_a_second_file_keeps_the_holes_it_does_not_name(tmp_path: Path) -> None:
    store = MemoryStore()
    file = tmp_path / "course.toml"
    for n, long in ((1, 380), (2, 410), (1, 390)):
        file.write_text(FILE.format(n=n, long=long), "utf-8")
        app.add_course(store, file, tee="", name="")
    assert {n: h.hole.length.value for n, h in kept(store).holes.items()} == {1: 390.0, 2: 410.0}
    key = key_of(Trip, ("me",))
    assert Trip.model_validate_json(store.load([key])[key].body).course == "Marram Point"


def test_the_command_tells_a_fault_with_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "course.toml"
    file.write_text(FILE.format(n=1, long=5000), "utf-8")
    assert main(["--data", ":memory:", "course", str(file)]) == 2
    assert "line 6, hole 1: 5000 yd cannot be" in capsys.readouterr().err
    assert main(["--data", ":memory:", "course", str(tmp_path / "none.toml")]) == 2
