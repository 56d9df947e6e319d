"""Sentences whose dates are no work's: rules of the course, business of the institution, what others do."""

from __future__ import annotations

import re

__all__ = ["rule_word", "speaks_of_rules"]

_RULES = re.compile(
    r"\b(?:if|unless|for example|e\.g|after (?:the|its|their|a) (?:due|deadline)\w*|for instance|suppose|imagine|"
    r"would be|late\b|loses?\b|penalt\w+|deduct\w*|office hours?|email me by|notify|let me know|"
    r"re-?grad\w+|appeal|make-?up|accommodat\w+|"
    r"(?:supplementary|deferred|re-?sit|repeat) (?:exam|test|assessment|paper)\w*|holiday|observance|"
    r"last (?:updated|revised|compiled)|copyright|published|edition|isbn)\b",
    re.IGNORECASE,
)
"""Rules of the course, and marks of when a text was written."""

_INSTITUTION = re.compile(
    r"\b(?:drop(?:ping)?\b(?! box)|dropped (?:from|for)|(?:administratively|automatically|be) dropped|"
    r"withdraw\w*|add/drop|"
    r"registrar|last day to|census|refund|tuition|"
    r"(?:reported|marked|counted) as (?:not|never) (?:attending|attended|participating)|not attending|never attended|"
    r"begun attendance|(?:attendance|enrol\w*) (?:verification|reporting)|federal (?:financial )?aid|"
    r"(?:degree|graduation|scholarship|admissions?|aid) applications?|"
    r"applications? (?:for|to) (?:\w+ )?(?:graduat\w+|degrees?|scholarships?|admission)|"
    r"appl(?:y|ied|ying) (?:for|to) (?:graduat\w+|graduation)|scholarships?|independent stud(?:y|ies)|"
    r"course evaluations?|student evaluations? of|evaluations? of (?:the course|instruction|teaching)|"
    r"(?:midterm|mid-term|final|progress|interim|quarter|course) grades? (?:are|is|will be|must be|go)\b|"
    r"(?:textbook|book|equipment|instrument|locker|cap and gown) rentals?|"
    r"(?:registration|payments?)\b[^.;]{0,60}\b(?:due|by|deadline|closes?|closed)|"
    r"(?:jury|recital|release|consent|permission|medical|waiver|absence|travel) forms?|"
    r"(?:adjustments|arrangements)\b[^.;]{0,60}\b(?:must|should|need(?:s|ed)?)|"
    r"(?:yearbook|lunch|book|shirt|uniform|ticket|supply) orders?|fee waivers?)\b",
    re.IGNORECASE,
)
"""Enrolment, aid, graduation, reported grades, rentals: business of the school and not of the course."""

_OTHERS = re.compile(
    r"\b(?:last (?:year|fall|spring|summer|winter|autumn|term|semester|quarter)(?:'s)?|in (?:past|previous|earlier) "
    r"(?:years|terms|semesters))\b",
    re.IGNORECASE,
)
"""What was in another term, or is no part of the course."""


def speaks_of_rules(text: str) -> bool:
    """Whether a part of a sentence is about rules, the institution or other people, so that its dates date no work.

    >>> speaks_of_rules("Applications for May graduation are due February 14.")
    True
    >>> speaks_of_rules("The essay is due February 14.")
    False
    """
    return any(pattern.search(text) for pattern in (_RULES, _INSTITUTION, _OTHERS))


def rule_word(text: str) -> str:
    """The words for which a part of a sentence counts as one about rules; empty without.

    >>> rule_word("Applications for May graduation are due February 14.")
    'Applications for May graduation'
    """
    return next((match[0] for pattern in (_RULES, _INSTITUTION, _OTHERS) if (match := pattern.search(text))), "")
