"""Every fixed word of later looks, of what is due, and of the garden."""

from __future__ import annotations

RECHECK_TITLE = "Case {number} again: {plant}, first looked at on {first}, {days} ago"
RECHECK_EARLIER = "It was most likely: {}."
DONE_SO_FAR = "Done since: {}."
DONE_ASK = "What was done since {day}?"
DONE_LOOK = "Numbers of what was done, or your own words."
DONE_NOTHING = "nothing"
DONE_PROMPT = "Numbers, words, or 0: "
DONE_WHEN = "On which day was it done? (2026-05-05, or days ago: 9)"
DONE_WHEN_PROMPT = "Day, or Enter for {day}: "
DONE_NOT_A_DAY = "A day between {first} and {last}, as 2026-05-05 or as days ago."
DONE_KEPT = "Kept: {what}, {day}."
DONE_UNKNOWN = "Kept in your words; the book has no remedy of that name, so it cannot be weighed: {}."
RECHECK_INTRO = (
    "Compare with that day; judge by the leaves that opened since. Any time: t can't tell, b back, q enough."
)

BETTER = "Better"
SAME = "The same"
WORSE = "Worse"
NOT_SAID = "Not compared"
VERDICTS = {"better": BETTER, "same": SAME, "worse": WORSE, "": NOT_SAID}
TOO_EARLY = "It is too early to judge “{what}”: it should show by {day}{cold}."
COLD = ", later than usual because it is cold ({temperature:g} °C)"
NOT_WHOLE = "“{name}” was done {count} of {times} times; that is not enough to judge it by."
GO_ON_WITH = "“{name}” was done {count} of {times} times: go on with it."
HINDERED = "“{name}” could hardly work here: {why}"
WAS_LIKELY = "What it most likely was"
IS_LIKELY = "What it most likely is"
MOVED = "{name}: {now} (before: {before})"
MOVED_NUMBERS = "{name}: {now} {now_number:.0%} (before: {before} {before_number:.0%})"
UNMOVED = "{name}: {now}, as before"
BECAUSE = "What the looks so far say"
SECOND_BESIDE = "A second cause may be at work beside it: {name} ({sure}). Nothing was done about that yet."
SECOND_INSTEAD = "Perhaps it is something else: {name} ({sure}). Nothing was done about that yet."
NOT_AGAIN = "Not again unchanged"
RETEST = "Not tested since it was changed: {}. Test it before the next step."
NEXT = "Next"
GO_ON_AS_IS = (
    "Go on as you do. Look again on {day}; if all new leaves are well, close the case: triage case close {number} "
    '--outcome "well again"'
)
LOOK_AGAIN = "Look again on {day}: triage case recheck {number}"
SETTLE_IT = "To settle it: {}"
NEW_RESPONSES = "What to do next"
UNSAID = "Nobody said how it is; the case stays as it was."
STOPPED = "Stopped. Every answer of today is kept; go on with it: triage case recheck {number}"
KEPT = "Kept with case {number}."

NOTHING_DUE = "Nothing is due."
DUE_GROUPS = {
    "alarm": "Act now",
    "wait": "Before you pick",
    "step": "Do next",
    "look": "Look again",
    "test": "Test",
}
LATE = "{} late"
COMING = "Coming"
TESTED_LAST = "{0} (last on {1}{2})"
TESTS_COMING = "Test {}."
NEVER_TESTED = "Never tested: {}"
CALENDAR_WRITTEN = "Calendar written to {file}, up to {last}."
NO_CALENDAR = "Nothing is due, so no calendar was written."

SEASON_INTRO = (
    "A made-up school glasshouse on a cool coast, forty weeks of it, played through the real questions, looks and"
    " answers. Everything is invented; nothing is kept unless --keep names a folder."
)
SEASON_MEASURED = "Between the lines below the water was tested as each week asks; those days are not shown."
SEASON_LOOK = "Case {number}, {plant} ({questions}): {suspects}."
SEASON_ADVISED = "To do: {}."
SEASON_AGAIN = "Case {number} again: {verdict}. {suspects}."
SEASON_EARLY = "Too early to judge “{what}”: it should show by {day}."
SEASON_DONE = "Done for case {number}: {what}."
SEASON_PROVED = "Case {number} turned out to be: {causes}. {how}"
SEASON_CLOSED = "Case {number} closed: {outcome}."
SEASON_SPRAY = "{name}: {grade}. {why}"
SEASON_DUE = "Due: {}"
SEASON_COMING = "Coming on {day}: {what}"
SEASON_NOTHING_DUE = "Nothing is due today."
SEASON_TOLD = "{cases}, {readings} and {answers} were kept, {proven} of the cases proved."
SEASON_KEPT = "It is all in {folder}. Go on there: triage --home {folder} case list"
