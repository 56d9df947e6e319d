"""Rules for numbers that are no dates: pages, rooms, scores, fractions, telephone and book numbers, stamps, citations.

What one of these rules takes is passed over when dates are looked for in running text. ``build`` gives True, or None to
decline.
"""

from __future__ import annotations

from syllabus_io.resolve.rules import Rule

__all__ = ["RULES"]


def _yes(*_: object) -> bool:
    return True


_BEFORE_NUMBERS = (
    "pages|page|pp|p|pgs|pg|chapter|chapters|ch|chap|chs|section|sections|sec|sect|unit|units|module|modules|problem|"
    "problems|prob|probs|exercise|exercises|ex|question|questions|q|figure|fig|figs|table|equation|eq|lesson|lessons|"
    "part|parts|book|books|act|acts|scene|scenes|verse|verses|vol|volume|volumes|issue|item|items|step|steps|appendix|"
    "theorem|room|rm|rooms|building|bldg|suite|office|hall|ext|extension|box|course|crn|version|ver|v|edition|grade|"
    "grades|level|levels|group|groups|team|teams|type|phase|stage|track|rule|article|articles|paragraph|line|lines|"
    "row|rows|seat|locker|apartment|apt|floor|route|highway|bus|psalm|topic|topics|objective|outcome|standard|standards|"
    "channel|bin|shelf|desk|kit|form|size|scale|aged|ages|age|score|scores|range|ratio|odds|license|licence|§|#"
)
_AFTER_NUMBERS = (
    "points|point|pts|pt|pages|page|pp|percent|credits|credit|hours|hour|hrs|hr|minutes|minute|mins|min|seconds|sec|"
    "words|word|questions|problems|students|people|times|cups|cup|inch|inches|cm|mm|kg|lb|lbs|oz|ml|mg|miles|mile|"
    "assignments|quizzes|exams|classes|labs|weeks|responses|essays|papers|projects|readings|posts|presentations|tests|"
    "homeworks|journals|discussions|sessions|lectures|meetings|absences|units|unit|items|paragraphs|sentences|slides|slide|sources|references|chapters|articles|majority|of|ratio|score|"
    "correct|possible|marks|mark|grade|dollars|usd|gb|mb|spaced|space|sheet|sheets|scale|split|years|year"
)
_STAMPS = (
    "updated|revised|modified|retrieved|accessed|published|copyright|©|printed|edited|created|version|rev|amended|"
    "approved|adopted|viewed|downloaded|effective"
)

# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_PARTS = (
    Rule("<number> in a list of numbers", "<num>", _yes, "<numlist>", ("page 12",)),
    Rule("<number>.<number> without a blank", "<num> .|:|/|- <num>", _yes, "<parts>", ("section 3.4",), glued=True),
    Rule("<number>.<number>.<number> without a blank", "<num> .|:|/|- <parts>", _yes, "<parts>", ("section 1.3.4",),
         glued=True),
    Rule("<number>.<number> in a list of numbers", "<parts>", _yes, "<numlist>", ("section 3.4",)),
    Rule("<number>.<number> before more numbers", "<parts> ,|&|and|to|through|; <numlist2>", _yes, "<numlist>",
         ("pages 3-5, 9",)),
    Rule("<numbers> in a list of numbers", "<num> ,|&|and|to|through|; <numlist2>", _yes, "<numlist>",
         ("chapters 3, 4 and 5",)),
    Rule("<more numbers> in a list", "<num>", _yes, "<numlist2>", ("chapters 3, 4 and 5",)),
    Rule("<more decimal numbers> in a list", "<num> .|- <numlist2>", _yes, "<numlist2>", ("sections 3.4, 3.5",)),
    Rule("<still more numbers> in a list", "<num> ,|&|and|; <numlist2>", _yes, "<numlist2>",
         ("chapters 3, 4 and 5",)),
    Rule("<number><letter> in a list", "<num> <letter>", _yes, "<numlist>", ("Room 12 B",)),
    Rule("<digits>-<digits>", "<num> [-] <bookdigits>", _yes, "<bookdigits>", ("ISSN 1234-5678",)),
    Rule("<digits>", "<num>", _yes, "<bookdigits>", ("ISSN 1234-5678",)),
)

_NEVER = (
    Rule("<word for a place or part> <numbers>", f"{_BEFORE_NUMBERS} [.] [#] [no] [:] <numlist>", _yes, "<never>",
         ("pp. 12-15", "Room 10/12", "Chapter 3.4", "version 2.10")),
    Rule("<numbers> <what is counted>", f"<num> {_AFTER_NUMBERS}", _yes, "<never>", ("12 points",)),
    Rule("<number>-<number> <what is counted>", f"<num> -|/|.|to|or <num> {_AFTER_NUMBERS}", _yes, "<never>",
         ("1/2 page", "9/10 points", "5-7 pages")),
    Rule("<number>/<number> %", "<num> / <num> %", _yes, "<never>", ("9/10 %",)),
    Rule("<number> %", "<num> [-|.|/] [<num>] %", _yes, "<never>", ("93-100 %",)),
    Rule("<fraction> of a whole", "<num> / <num> the|as|way|a|an|each|or", lambda a, b: True if a < b <= 4 else None,
         "<never>", ("2/3 the",)),
    Rule("9/11 as an event", "<num> / <num> attack|attacks|commission|terrorist",
         lambda a, b: True if (a, b) == (9, 11) else None, "<never>", ("9/11 attacks",)),
    Rule("24/7", "<num> / <num>", lambda a, b: True if (a, b) == (24, 7) else None, "<never>", ("24/7",)),
    Rule("<money>", "$|€|£ <numlist>", _yes, "<never>", ("$10/12",)),
    Rule("<telephone number>", "[(] <num> [)] [-|.|/] <num> -|. <num>",
         lambda a, b, _: True if a > 99 and b > 99 else None, "<never>", ("(555) 123-4567",)),
    Rule("ISBN <digits>", "isbn|issn|doi|crn|oclc [-] [<num>] [:] <bookdigits>", _yes, "<never>",
         ("ISSN 1234-5678",)),
    Rule("<stamp> <date>", f"{_STAMPS} [on|:|as|in|by] [of] [:] <stampdate>", _yes, "<never>",
         ("updated: 8/25/2025", "Revised August 2024")),
    Rule("<stamp>: <time> <date>", f"{_STAMPS} [on|:|at] <time> [,] [on] <stampdate>", _yes, "<never>",
         ("updated 5:00 pm 8/25/2025",)),
    Rule("as of <date>", "as of [:] <stampdate>", _yes, "<never>", ("as of August 25, 2025",)),
    Rule("(<year>, <month>)", "( <year> [<letter>] , <month> [<dom>] [-] [<dom>] )", _yes, "<never>",
         ("(2010, March 5)",)),
    Rule("<day> in a stamp", "<day>", _yes, "<stampdate>", ("updated 8/25/2025",)),
    Rule("<month> in a stamp", "<monthname>", _yes, "<stampdate>", ("Revised August 2024",)),
    Rule("the <number>th <what is no day>",
         "[the] <nth> century|edition|ed|grade|graders|floor|street|st|avenue|ave|amendment|congress|"
         "percentile|anniversary|birthday|place|printing|volume|chapter|edn|year|annual", _yes, "<never>",
         ("the 19th century", "3rd edition")),
    Rule("<number>:<number> after a book",
         "genesis|exodus|leviticus|numbers|deuteronomy|matthew|luke|john|romans|corinthians|psalms|isaiah|"
         "job|surah|sura|qur'an|quran [:] <clock> [-] [<num>]", _yes, "<never>", ("Genesis 1:10-12",)),
    Rule("<number> a day", "<num> days|weeks|day|week late|early|extension|grace|old|long", _yes, "<never>",
         ("2 days late",)),
)
# fmt: on

RULES = (*_PARTS, *_NEVER)
