"""The English that the reader of words knows by itself: no finding, only how people speak."""

from __future__ import annotations


def words_of(text: str) -> frozenset[str]:
    """The words of a text as a set."""
    return frozenset(text.split())


#: Cues of negation become this one word; a contrast ("unlike mites") becomes the other.
NOT = "not"
UNLIKE = "unlike"

#: Articles and possessives are dropped at once.
ARTICLES = words_of("a an the of its their my our your his her these those")

#: Words that carry no sign by themselves.
STOP = words_of(
    """and or is are was were be been being am it they them there this that with have has had having i we he she me us
    to for as at by from into than then so very quite rather some any also just can could will would should may
    might do does did done get gets got getting go goes going like look looks looking looked seem seems seemed
    appear appears appearing appeared become becomes becoming became turn turns turned turning show shows showing
    shown see sees seeing seen saw find found finding when where which who what why how while about around but if
    because after before now already here over in on along upon between across during until since even both such
    well always often usually sometimes mostly mainly several various lot lots bit kind sort way thing things
    something anything ones three four five really almost nearly completely totally slightly somewhat badly severely
    heavily especially come comes came coming make makes made making want help please hi hello thanks today recently
    lately though although however whereas yet except think maybe perhaps possibly probably guess suspect notice
    noticed observed visible per cm mm inch inches degrees most severe"""
)
#: Words that a phrase may need, but that tell nothing alone and do not part the words around them.
SOFT = words_of(
    """more less many much too all only every each one two half last next other same again never not unlike day week
    month ago yesterday tomorrow up out off down still round first start through"""
)

NEGATIONS = words_of(
    """no not without never none nor neither cannot lacks lacking absent isn't aren't wasn't weren't doesn't don't
    didn't haven't hasn't hadn't won't wouldn't can't couldn't isnt arent wasnt doesnt dont didnt havent hasnt wont
    cant couldnt nothing"""
)
#: These deny only if they are no part of a set phrase such as "hardly any".
WEAK_NEGATIONS = words_of("rarely hardly seldom scarcely barely")

COLOURS = words_of("yellow pale white brown black purple grey silver bronze green red orange pink dark")

#: Words that belong to the thing after them as a colour does.
LIKE_COLOURS = COLOURS | words_of("dead dry papery crisp scorch watersoaked greasy dull shiny darkgreen sticky")
#: Words that stand for the leaf or plant that a phrase leans on.
PROPS = words_of("leaf plant crop newest oldest midleaf blade")
#: Things that the colour just before them belongs to.
NOUNS = words_of(
    """spot patch dot ring halo target tip edge vein centre bump wart pustule powder fuzz mould streak band line skin
    stain stem root fruit flower bud leafstalk head seedling insect mite aphid caterpillar beetl egg butterfly
    whitefly thrips wing water crust growth film paper sheet bod mark"""
)

#: Words too common among phrases to decide anything.
LEAN = words_of("leaf plant crop tissu part side affect plac alter damag")

_IRREGULAR = """leaves leaf|leafs leaf|lice louse|larvae larva|pupae pupa|hyphae hypha|dying die|died die|dies die|
dead die|death die|fungi fungus|thrips thrips|thrip thrips|feet foot|fed feed|ate eat|eaten eat|fell fall|fallen fall|
grew grow|grown grow|growth growth|lost lose|loss lose|broke break|broken break|tore tear|torn tear|bitten bite|
bit bite|ph ph|species species|less less|moss moss|gas gas|this this|iris iris|virus virus|glass glass|grass grass|bass bass|
evening evening|morning morning|string string|strings string|ring ring|rings ring|ringed ring|spring spring|
springs springs|king king|red red|bed bed|beds bed|seed seed|seeds seed|weed weed|weeds weed|feed feed|need need|
during during|thing thing|webbing web|webs web|webbed web|cobweb web|dried dry|drier dry|dries dry|fly fly|flies fly|
flew fly|bigger big|biggest big|larger large|largest large|smaller small|smallest small|thinner thin|thinnest thin|
paler pale|palest pale|darker dark|darkest dark|lighter light|whiter white|yellower yellow|greener green|browner brown|
softer soft|shorter short|slower slow|warmer warm|colder cold|cooler cool|hotter hot|tender tender|damping damping|
ceiling ceiling|wing wing|wings wing|sting sting|sling sling|thickened thick|blackened black|darkened dark|
hardened hard|stiffened stiff|reddened red|reddening red|blackens black|blacken black|blackening black|softened soft|
shortened short|whitened white|sunk sunken|shrunk shrivel|shrunken shrivel|bore bore|wove weave|sprang spring|
sprung spring|hung hang|stuck stick|stank stink|stunk stink|froze freeze|frozen freeze|swollen swollen|died die|
mice mouse|laid lay|lain lie|lying lie|lies lie|spread spread|shed shed|cut cut|split split|splitting split|rid rid|
bled bleed|bud bud|buds bud|unhealthy unhealthy|gnats gnat|always always|loose loose|lose lose|losing lose"""
IRREGULAR = dict(pair.split() for pair in _IRREGULAR.replace("\n", "").split("|"))

ENDS = frozenset(".;!?\n")
PAUSES = frozenset(",:()–—")
#: Words that part a sentence like a comma, and end what a denial reaches.
BREAKS = words_of("but although though however while whereas except yet")

DOUBT = (
    "maybe", "perhaps", "possibly", "might", "may be", "i think", "not sure", "unsure", "could be", "i guess",
    "suspect", "probably", "not certain",
)  # fmt: skip
#: After a denial: nobody looked.
NOT_LOOKED = words_of("look looked check test examin inspect measur lift")
#: After a denial: nobody knows, unless "why" or "what" follows, which takes the thing for granted.
NOT_KNOWN = words_of("know tell sure certain idea understand clear")
#: After a denial: the thing is there, it only cannot be stopped or does not go away.
GRANTED = words_of(
    """stop fix rid control cure prevent kill save eliminat wipe rub wash improv respond heal only just longer doubt
    matter wonder understand"""
)
ASKS = words_of("why what how where")
#: Words that end what a denial or a contrast reaches.
ENDS_DENIAL = words_of("and because so then with only")
ENDS_CONTRAST = words_of("there it they this that which and")
#: "webbing was not found": a denial after the thing.
EXISTS = words_of("seen found present visible there evident noticeable detected observed noticed apparent")
