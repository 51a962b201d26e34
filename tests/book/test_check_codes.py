"""One broken file per check code: the fault is found at the line that the file marks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from triage.book.check import check_folders
from triage.book.codes import CODES
from triage.ranking.neighbours import nearest
from triage.rules.check import rule_faults

BROKEN = Path(__file__).parent.parent / "broken"
MARK = re.compile(r"# <- (KB\d+)")


def marked_lines(folder: Path) -> set[tuple[str, int, str]]:
    found = set()
    for path in sorted(folder.rglob("*.yaml")):
        for number, line in enumerate(path.read_bytes().decode("latin-1").splitlines(), start=1):
            for code in MARK.findall(line):
                found.add((path.relative_to(folder.parent).as_posix(), number, code))
    return found


@pytest.mark.parametrize("code", sorted(CODES))
def test_each_code_is_found_where_the_broken_file_says(code: str) -> None:
    folder = BROKEN / code
    assert folder.is_dir(), f"tests/broken/{code} is missing"
    faults = check_folders([BROKEN / "base", folder], rule_faults, neighbours=nearest)
    found = {(fault.path, fault.line, fault.code) for fault in faults}
    expected = marked_lines(folder) or {(f"{code}/findings/leaf.yaml", 1, code)}
    assert expected <= found
    assert all(fault.message for fault in faults)


def test_the_base_is_clean() -> None:
    assert check_folders([BROKEN / "base"], rule_faults, neighbours=nearest) == []


def test_all_faults_are_collected_at_once(tmp_path: Path) -> None:
    findings = tmp_path / "own" / "findings"
    findings.mkdir(parents=True)
    (findings / "leaf.yaml").write_text(
        "- finding: a\n  kind: wrong\n  nam: x\n  place: leef\n  sources: [nowhere]\n", encoding="utf-8"
    )
    codes = [fault.code for fault in check_folders([tmp_path / "own"], rule_faults)]
    assert codes.count("KB103") == 2
    assert "KB101" in codes
    assert "KB102" in codes


def test_a_message_names_what_is_allowed_and_the_nearest_match() -> None:
    (fault,) = [f for f in check_folders([BROKEN / "base", BROKEN / "KB103"], rule_faults) if f.code == "KB103"]
    assert "allowed:" in fault.message
    assert "nearest: 'leaf'" in fault.message
    (dangling,) = [f for f in check_folders([BROKEN / "base", BROKEN / "KB201"], rule_faults) if f.code == "KB201"]
    assert "nearest: 'spotted-leaf'" in dangling.message
