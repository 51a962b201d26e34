"""The door to experta: it opens under either frozendict, leaves nothing behind, and refuses half an engine."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

LATER_FROZENDICT = '''
"""Stands in for frozendict 2.x: imports on every Python and is a dict."""

class frozendict(dict):
    def __hash__(self):
        return hash(frozenset(self.items()))

    def _refuse(self, *args, **kwargs):
        raise TypeError("frozendict is read-only")

    __setitem__ = __delitem__ = update = pop = clear = _refuse
'''

BROKEN = """
import logging
logging.basicConfig(level=logging.DEBUG)
raise ImportError("broken")
"""

SMALL_RUN = """
import collections, sys
import msgspec
from triage.model.case import Case
from triage.model.facts import CaseFacts
from triage.model.rule import Rule
from triage.rules.run import RuleRunner
rule = {"rule": "a", "when": {"finding": "webbing"}, "conclude": "mites-about", "because": "b", "sources": ["s"]}
runner = RuleRunner({"a": msgspec.convert(rule, Rule)})
facts = CaseFacts(case=Case(on="2026-05-04", seen=frozenset(["webbing"])))
print([conclusion.id for conclusion in runner.run_case(facts).conclusions], hasattr(collections, "Mapping"))
"""


def run_python(code: str, *before: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    paths = os.pathsep.join(str(path) for path in (*before, ROOT))
    return subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": paths, **environment},
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_engine_is_whole_and_collections_is_left_alone() -> None:
    done = run_python(SMALL_RUN)
    assert done.stdout == "['mites-about'] False\n", done.stderr
    assert done.stderr == ""


def test_it_opens_under_a_later_frozendict(tmp_path: Path) -> None:
    (tmp_path / "frozendict.py").write_text(LATER_FROZENDICT, encoding="utf-8")
    done = run_python(SMALL_RUN + "import frozendict; print(frozendict.__file__)", tmp_path)
    assert done.stdout == f"['mites-about'] False\n{tmp_path / 'frozendict.py'}\n", done.stderr


def test_a_name_that_was_there_before_stays() -> None:
    code = """
import collections, collections.abc
class Own(collections.abc.Mapping): ...
collections.Mapping = Own
import triage.rules.door
print(collections.Mapping is Own)
"""
    assert run_python(code).stdout == "True\n"


def test_the_root_logger_is_left_as_it_was() -> None:
    code = """
import logging
import triage.rules.door
root = logging.getLogger()
print(root.handlers, logging.getLevelName(root.level))
logging.basicConfig(level=logging.INFO, format="ours %(message)s")
logging.info("heard")
"""
    done = run_python(code)
    assert done.stdout == "[] WARNING\n"
    assert done.stderr == "ours heard\n"


def test_a_handler_of_the_host_stays() -> None:
    code = """
import logging
own = logging.NullHandler()
logging.getLogger().addHandler(own)
logging.getLogger().setLevel(logging.ERROR)
import triage.rules.door
root = logging.getLogger()
print(root.handlers == [own], logging.getLevelName(root.level))
"""
    assert run_python(code).stdout == "True ERROR\n"


def test_half_an_engine_is_refused_with_what_to_do(tmp_path: Path) -> None:
    (tmp_path / "experta").mkdir()
    (tmp_path / "experta" / "__init__.py").write_text("class Fact(dict): pass\n", encoding="utf-8")
    done = run_python("import triage.rules.door", tmp_path)
    assert done.returncode == 1
    assert "TriageError: the rule engine is only half installed (experta has no KnowledgeEngine" in done.stderr
    assert "pip install experta==1.9.4" in done.stderr


def test_nothing_is_left_behind_when_the_import_fails(tmp_path: Path) -> None:
    (tmp_path / "experta.py").write_text(BROKEN, encoding="utf-8")
    code = """
import collections, logging
try:
    import triage.rules.door
except ImportError as error:
    print(error, hasattr(collections, "Mapping"), logging.getLogger().handlers, logging.getLogger().level)
"""
    assert run_python(code, tmp_path).stdout == "broken False [] 30\n"


def test_checking_rules_needs_no_engine() -> None:
    code = "import sys\nimport triage.rules.check\nprint('experta' in sys.modules)"
    assert run_python(code).stdout == "False\n"
