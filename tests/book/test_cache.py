"""The compiled book: the same book as the files give, fresh when a file changes, harmless when damaged."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from triage.book.cache import open_book
from triage.book.kept import Kept
from triage.book.load import load_book
from triage.book.places import built_in_knowledge
from triage.errors import KnowledgeError

OWN = """- crop: house-lettuce
  name: House lettuce
  kind: leafy
  sources: [common-practice]
"""


def test_cached_equals_loaded(tmp_path: Path) -> None:
    first = open_book(cache=tmp_path)
    again = open_book(cache=tmp_path)
    assert first == again == load_book(built_in_knowledge())


def test_an_authors_folder_is_laid_over_and_seen_when_it_changes(tmp_path: Path) -> None:
    own, cache = tmp_path / "own", tmp_path / "cache"
    own.mkdir()
    (own / "crops.yaml").write_text(OWN, encoding="utf-8")
    assert open_book(own, cache).crops["house-lettuce"].name == "House lettuce"
    (own / "crops.yaml").write_text(OWN.replace("House lettuce", "Home lettuce"), encoding="utf-8")
    assert open_book(own, cache).crops["house-lettuce"].name == "Home lettuce"


@pytest.mark.parametrize("damage", [b"", b"{", b'{"version": 3}', b"\x00\xff"])
def test_a_damaged_cache_is_read_anew(tmp_path: Path, damage: bytes) -> None:
    book = open_book(cache=tmp_path)
    for file in tmp_path.iterdir():
        file.write_bytes(damage)
    assert open_book(cache=tmp_path) == book


def test_an_unwritable_cache_is_no_fault(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    assert open_book(cache=blocked).crops


def test_faults_are_raised_all_at_once(tmp_path: Path) -> None:
    (tmp_path / "crops.yaml").write_text("- crop: A b\n  name: x\n", encoding="utf-8")
    with pytest.raises(KnowledgeError) as caught:
        open_book(tmp_path)
    assert {fault.code for fault in caught.value.faults} >= {"KB102"}


def test_yaml_is_not_imported_on_a_hit(tmp_path: Path) -> None:
    open_book(cache=tmp_path)
    script = (
        "import sys, pathlib; from triage.book.cache import open_book;"
        f"open_book(cache=pathlib.Path({str(tmp_path)!r})); print('yaml' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_an_entry_is_decoded_when_it_is_asked_for_and_stays_the_same(tmp_path: Path) -> None:
    open_book(cache=tmp_path)
    book = open_book(cache=tmp_path)
    assert isinstance(book.substances, Kept)
    first = next(iter(book.substances))
    assert book.substances[first] is book.substances[first]
    assert "no-such-thing" not in book.substances
    assert list(book.substances) == list(load_book().substances)
    assert len(book.substances) == len(load_book().substances)
    with pytest.raises(KeyError):
        book.substances["no-such-thing"]


@pytest.mark.parametrize("place", [0.1, 0.5, 0.9])
def test_one_wrong_byte_anywhere_is_noticed(tmp_path: Path, place: float) -> None:
    book = open_book(cache=tmp_path)
    file = next(tmp_path.iterdir())
    data = bytearray(file.read_bytes())
    data[int(len(data) * place)] ^= 1
    file.write_bytes(data)
    assert open_book(cache=tmp_path) == book
