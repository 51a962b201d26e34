"""Every fixed word of the garden as one, and of what is kept with a case."""

from __future__ import annotations

WATCH = "Watch list"
NO_WATCH = "Nothing that spreads is known in any bed."
BED = "Bed {}"
ANYWHERE = "Every bed (none is named: triage garden bed NAME --crops basil,chard)"
NEAR = {
    "same": "in this bed",
    "beside": "in bed {bed} beside it",
    "apart": "in bed {bed}",
    "": "on {plant}",
}
OVER = "over, watched a while longer"
SINCE = "{name}: since {since} {where} (case {case}{over})."
AT_RISK = "At risk: {}."
PRONE = {"more": "{} (prone to it)", "less": "{} (seldom gets it)", "": "{}"}
SPEED = {"fast": "Spreads fast: {}", "slow": "Spreads slowly: {}"}
LOOK_FOR = "Look for: {}."
LOOK_NOW = "Look today, then every {}."
LOOK_LATE = "Look today ({} late), then every {}."
LOOK_ON = "Look again on {}."
LOOKED_OVER = "Looked over the neighbours? Say whether more plants have it: triage case recheck NUMBER"

RETURNING = "What comes back"
NO_RETURNING = "No cause came back so far."
CAME = "{name}: {times}, {outbreaks}."
OUTBREAK = "{first} ({what})"
SAME_SEASON = "Each time at about the same time of the year."
SAME_BED = "Each time in bed {}."

OWN_CASES = "What this garden has taught"
NO_OWN_CASES = "No case is proven yet. Say what one turned out to be: triage case outcome NUMBER CAUSE"
OWN_INTRO = (
    "{cases} beside the book, which counts like {weight:g}; no cause is moved more than {most:g} times either way."
)
OWN_RATE = "{name}: proven {times}; {book:.1%} in the book, {here:.1%} here"
OWN_TIMES = ", odds times {:.1f}"
OWN_BOUNDED = " (held there)"
OWN_NOTHING = "{} nothing of the book."
OWN_OFF = "It is turned off: answers are those of the book. On again: triage garden learn on"
OWN_ON = "Turn it off: triage garden learn off. A wrong outcome: say it again with triage case outcome."
LEARNS_ON = "Proven cases of this garden move the odds from now on."
LEARNS_OFF = "Proven cases of this garden no longer move the odds; they are kept."

BED_KEPT = "Kept: bed {}."
PLANT_KEPT = "Kept: {}."
PLACED = "Case {number} is at {where}."
PHOTO_KEPT = "Kept with case {number}: {path} ({size}, SHA-256 {sha})."
PHOTO_STATES = {"same": "as it was", "changed": "CHANGED since", "missing": "NOT THERE any more"}
NO_PHOTOS = "No photo is kept with case {}."
OUTCOME_KEPT = "Case {number} turned out to be {what}."
OUTCOME_NOTHING = "nothing of the book"
OUTCOME_UNKNOWN = "What case {number} was is not known, as before anybody said."
OUTCOME_CLOSE = "Close it when the plant is well: triage case close {number} --outcome ..."
DID_KEPT = "Recorded for case {number}: {what}"
CLOSED_KEPT = "Case {number} closed: {outcome}"
CORRECTED = "Number {old} no longer counts; it stands in the history. Instead: {what}, {on}."
WITHDRAWN = "Number {old} no longer counts; it stands in the history."

LATEST = "The latest {}, of {} in all. Every one: triage case list --all"
HISTORY = "Case {number}, every entry"
ANSWERED = "answered"
TAKEN_BACK = "answered, taken back later"
BACK = "took the last answer back"
ADVISED = "advised: {summary} (book {version}, {hash})"
NO_SUMMARY = "nothing convincing"
LOOKED = "looked again ({day}): {verdict}"
LOOK_OPEN = "looked again ({day}), not finished"
DID = "did on {on}, number {id}: {what}"
FATES = {"": "", "replaced": ", replaced by number {by}", "withdrawn": ", taken back"}
WHY = " ({})"
PHOTO = "photo of {on}: {path}, {state}"
TURNED_OUT = "turned out to be: {}"
NOT_KNOWN = "not known after all"
CLOSED = "closed: {}"
BEGUN = "begun, for the look of {}"

COPIED = "Copied to {}"
EXPORTED = "{entries} entries written to {file}"
IMPORTED = "{entries} entries read from {file}"
WHOLE = "The journal is whole."
NOTHING_KEPT = "Nothing is kept in {} yet."
