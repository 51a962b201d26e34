"""One question about a spray, from typed words to a report: the conductor's smaller piece."""

from .answer import answer_spray, report_on
from .asked import Asked
from .judge import Judge
from .table import compare_sprays, grade_shelf

__all__ = ["Asked", "Judge", "answer_spray", "compare_sprays", "grade_shelf", "report_on"]
