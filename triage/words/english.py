"""The English that the reader of words knows by itself: no finding, only how people speak."""

from __future__ import annotations


def words_of(text: str) -> frozenset[str]:
    """The words of a text as a set."""
    return frozenset(text.split())


#: Cues of negation become this one word; a contrast ("unlike mites") becomes the other.
NOT = "not"
UNLIKE = "unlike"
#: What is said of a part of the plant to set it apart.
HEALTHY = "healthy"

#: Articles and possessives are dropped at once.
ARTICLES = words_of("a an the its their my our your his her these those")

#: Words that carry no sign by themselves.
STOP = words_of(
    """of and or is are was were be been being am it they them there this that with have has had having i we he she me
    us to for as at by from into than then so very quite rather some any also just can could will would should may
    might do does did done get gets got getting go goes going like look looks looking looked seem seems seemed
    appear appears appearing appeared become becomes becoming became turn turns turned turning show shows showing
    shown see sees seeing seen saw find found finding when where which who what why how while about around but if
    because after before now already here over in on along upon between across during until since even both such
    well always often usually sometimes mostly mainly several various lot lots bit kind sort way thing things
    something anything ones three four five really almost nearly completely totally slightly somewhat badly severely
    heavily especially come comes came coming make makes made making want help please hi hello thanks today recently
    lately though although however whereas yet except think maybe perhaps possibly probably guess suspect notice
    noticed observed visible per cm mm inch inches degrees severe develop develops developed developing produce
    produces produced producing cause causes caused causing occur occurs occurred occurring appearance result
    results resulting contain contains eventually initially generally commonly frequently typically later soon
    distinct distinctly obvious evident apparent noticeable clearly definitely actually pretty super extremely
    particularly particular"""
)
#: Words that a phrase may need, but that tell nothing alone and do not part the words around them.
SOFT = words_of(
    """more less many much too all only every each one two half last next other same again never most not unlike day
    week month ago yesterday tomorrow up out off down still round first start through"""
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
#: Words for how large a thing is, which belong to the thing after them, too.
SIZES = words_of("tiny large")
#: Words that may stand in a row before a thing ("a dark, leathery, sunken spot").
ADJECTIVES = LIKE_COLOURS | words_of(
    """tiny large round long soft hard sunken leathery raised narrow thin oval flat angular ragged watery mush fuzz
    velvet clear wet slow wing rust shap thick cork rough brittle slime firm"""
)
#: Words that stand for the leaf or plant that a phrase leans on.
PROPS = words_of("leaf plant crop newest oldest midleaf blade")
#: Things that the colour just before them belongs to.
NOUNS = words_of(
    """spot patch dot ring halo target tip edge vein centre bump wart pustule powder fuzz mould streak band line skin
    stain stem root fruit flower bud leafstalk head seedling insect mite aphid caterpillar beetl egg butterfly
    whitefly thrips wing water crust growth film soot gall grain thread mat slime scab wire soil hump dome scal plat
    droppings rot paper sheet bod mark depression pit meal sludg pellet scale centre vessel"""
)

#: Words too common among phrases to decide anything.
LEAN = words_of("leaf plant crop tissu part side affect plac alter damag")

_IRREGULAR = """
    always: always; bass: bass; bed: bed beds; big: bigger biggest; bite: bit bitten; black: blacken blackened
    blackening blackens; bleed: bled; bore: bore; break: broke broken; brown: browner; bud: bud buds; ceiling:
    ceiling; cold: colder; cool: cooler; cut: cut; damping: damping; dark: darkened darker darkest; die: dead death
    died dies dying; dry: dried drier dries; during: during; eat: ate eaten; evening: evening; fall: fallen fell;
    feed: fed feed; fly: flew flies fly; foot: feet; freeze: froze frozen; fungus: fungi; gas: gas; glass: glass;
    gnat: gnats; grass: grass; green: greener; grow: grew grown; growth: growth; hang: hung; hard: hardened; hot:
    hotter; hypha: hyphae; iris: iris; king: king; large: larger largest; larva: larvae; lay: laid; leaf: leafs
    leaves; less: less; lie: lain lies lying; light: lighter; loose: loose; lose: lose losing loss lost; louse:
    lice; morning: morning; moss: moss; mouse: mice; need: need; pale: paler palest; ph: ph; pupa: pupae; red: red
    reddened reddening; rid: rid; ring: ring ringed rings; seed: seed seeds; shed: shed; short: shortened shorter;
    shrivel: shrunk shrunken; sling: sling; slow: slower; small: smaller smallest; soft: softened softer; species:
    species; split: split splitting; spread: spread; spring: sprang spring sprung; springs: springs; stick: stuck;
    stiff: stiffened; sting: sting; stink: stank stunk; string: string strings; sunken: sunk; swollen: swollen;
    tear: tore torn; tender: tender; thick: thickened; thin: thinner thinnest; thing: thing; this: this; thrips:
    thrip thrips; unhealthy: unhealthy; virus: virus; warm: warmer; weave: wove; web: cobweb webbed webbing webs;
    weed: weed weeds; white: whitened whiter; wing: wing wings; yellow: yellower;"""
#: Forms that no ending gives away: form → plain form.
IRREGULAR = {
    form: plain.strip()
    for plain, _, forms in (group.partition(":") for group in _IRREGULAR.split(";"))
    for form in forms.split()
}

ENDS = frozenset(".;!?\n")
PAUSES = frozenset(",:()–—")
#: Words that part a sentence like a comma, and end what a denial reaches.
BREAKS = words_of("but although though however while whereas except yet")

DOUBT = (
    "maybe", "perhaps", "possibly", "might be", "i think", "not sure", "unsure", "could be", "i guess",
    "suspect", "probably", "not certain",
)  # fmt: skip
#: After a denial: nobody looked.
NOT_LOOKED = words_of("look looked check test examin inspect measur lift")
#: After a denial: nobody knows, unless "why" or "what" follows, which takes the thing for granted.
NOT_KNOWN = words_of("know tell sure certain idea understand clear")
#: After a denial: the thing is there, it only cannot be stopped or does not go away.
GRANTED = words_of(
    """stop fix rid control cure prevent kill save eliminat wipe rub wash improv respond heal doubt matter wonder
    understand"""
)
ASKS = words_of("why what how where")
#: Words that end what a denial or a contrast reaches.
ENDS_DENIAL = words_of("and because so then with only")
ENDS_CONTRAST = words_of("there it they this that which and")
#: "webbing was not found": a denial after the thing.
EXISTS = words_of("seen found present visible there evident noticeable detected observed noticed apparent")

#: Stems of everyday words that come within a slip of a word of the book, and are right all the same.
ORDINARY = words_of(
    """almight attende bacteria beach breadth butter calculation cater cheat chlorid chopper circulat clement closet
    compensation compet complex compos composit concert condemnation conditional conditioner connectivit construct
    conversation coroner corporation creator deceas dedicat deportation drought entrant farther finer frail graduat
    greed hallway hater heath heather humilit inspect interven irregularit irritation latter mankind mediat
    mediation medical meditation multi multipl municipalit original overheard oversight pitcher presenc prevent
    quartet rabbi radical regulat resid scatter shatter shelter shrin sizabl slander slash sooth springs starr stead
    steak steam sting suction supplemental supplementar sweater sweeter thorough traffick transparenc trash tread
    trial trick unarm unlik violent widow"""
)
