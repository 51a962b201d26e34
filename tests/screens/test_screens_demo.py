"""The demo: short, the same every time, through the real series, and nothing of it is kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from triage.book.scenes import load_scenes
from triage.screens import wording

DEMO = Path(__file__).resolve().parents[2] / "demo"


def test_the_demo_is_short_and_the_same_every_time(triage: Any) -> None:
    first, second = (triage("demo", PYTHONHASHSEED=seed) for seed in ("1", "2"))
    assert first.returncode == 0, first.stderr
    assert first.stdout == second.stdout
    assert len(first.stdout.splitlines()) < 250
    assert "\x1b" not in first.stdout


def test_every_scene_is_played(triage: Any, tmp_path: Path) -> None:
    said = " ".join(triage("demo", "--home", str(tmp_path / "home")).stdout.split())
    for scene in load_scenes(DEMO / "scenes.yaml"):
        assert scene.says in said
    for words in (wording.ALARM, wording.DO, wording.AVOID, wording.GRADE_WORDS["never"], "Spider mites: very likely"):
        assert words in said
    assert not (tmp_path / "home").exists()


def test_the_fish_alarm_comes_before_the_plant(triage: Any) -> None:
    scene = triage("demo").stdout.split("Thursday")[1]
    assert scene.index(wording.ALARM) < scene.index(wording.CROP_ASK)
