"""The words of the date language as tables: months, weekdays, numbers, units, times of day, holidays.

Every word is in lower case and without its full stop; the tokeniser looks words up here.
"""

from __future__ import annotations

from collections.abc import Mapping

from syllabus_io.resolve.expression import TimePoint, Unit, Weekday

__all__ = [
    "ABBREVIATIONS",
    "BREAK_NAME",
    "CAPITAL_WORDS",
    "CLASS_KINDS",
    "COMMON_WORDS",
    "DAY_PARTS",
    "FOREIGN_JOINTS",
    "FOREIGN_MONTHS",
    "FOREIGN_MONTH_NUMBERS",
    "FOREIGN_WEEKDAYS",
    "FOREIGN_WEEKDAY_NAMES",
    "FUNCTION_WORDS",
    "HOLIDAYS",
    "LETTER_DAYS",
    "MONTHS",
    "NUMBERS",
    "ORDINALS",
    "PATTERN_DAYS",
    "PLURAL_WEEKDAYS",
    "TENS",
    "UNITS",
    "WEEKDAYS",
    "ZONES",
]


def _words(line: str) -> list[str]:
    return line.split()


_MONTH_SPELLINGS = (
    "january jan",
    "february feb febr feburary febuary febrary feburay",
    "march mar",
    "april apr",
    "may",
    "june jun",
    "july jul",
    "august aug",
    "september sept sep septmber setp setpember septemeber spetember",
    "october oct ocotber octber ocober",
    "november nov novemeber novmber novemer",
    "december dec decemeber decmber",
)
MONTHS: Mapping[str, int] = {
    word: number for number, line in enumerate(_MONTH_SPELLINGS, start=1) for word in line.split()
}

_WEEKDAY_SPELLINGS = {
    Weekday.MO: "monday mon mo",
    Weekday.TU: "tuesday tues tue tu",
    Weekday.WE: "wednesday weds wed we wednsday wensday wednesay",
    Weekday.TH: "thursday thurs thur thu th",
    Weekday.FR: "friday fri fr",
    Weekday.SA: "saturday sat sa",
    Weekday.SU: "sunday sun su",
}
#: Words that in a text with capitals never name a month or weekday without one.
CAPITAL_WORDS = frozenset({"may", "mo", "tu", "we", "th", "fr", "sa", "su"})
#: Words that in a text with capitals only name a month or weekday with a capital, or before a number.
COMMON_WORDS = frozenset({"march", "mar", "sat", "sun", "wed", "mon"})
WEEKDAYS: Mapping[str, Weekday] = {word: day for day, line in _WEEKDAY_SPELLINGS.items() for word in line.split()}
PLURAL_WEEKDAYS: Mapping[str, Weekday] = {
    word + "s": day
    for word, day in WEEKDAYS.items()
    if len(word) > 2 and word[-1] != "s" and word + "s" not in (*WEEKDAYS, "thus")
}
#: One-letter weekdays, as class patterns write them (R is Thursday; common practice, no source).
LETTER_DAYS: Mapping[str, Weekday] = {
    "m": Weekday.MO,
    "t": Weekday.TU,
    "w": Weekday.WE,
    "r": Weekday.TH,
    "f": Weekday.FR,
}
#: What a run of letters such as MWF, TTh, MTWRF or TuTh is made of, longest first.
PATTERN_DAYS: Mapping[str, Weekday] = {
    "mo": Weekday.MO,
    "tu": Weekday.TU,
    "we": Weekday.WE,
    "th": Weekday.TH,
    "fr": Weekday.FR,
    "sa": Weekday.SA,
    "su": Weekday.SU,
    **LETTER_DAYS,
}

#: Words that may carry the full stop of an abbreviation.
ABBREVIATIONS = frozenset(
    {
        *(word for word in MONTHS if len(word) <= 5 and word not in {"march", "april", "may", "june", "july"}),
        *(word for word in WEEKDAYS if len(word) <= 5),
        *_words("wk wks lec lect mtg mtgs approx ca no nr st jr dr hr hrs pp vol ch fig sec"),
    }
)

#: Words and signs that stand everywhere; that a text has one of them tells little.
FUNCTION_WORDS = frozenset(
    _words(
        "a all an and are as at before but by end for from in is it next no not of on one or our start that the this "
        "through to up with within your & , . : ; - / ( ) # •"
    )
)
NUMBERS: Mapping[str, int] = {
    word: number
    for number, word in enumerate(
        _words(
            "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
            "seventeen eighteen nineteen"
        )
    )
}
TENS: Mapping[str, int] = {"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50}
ORDINALS: Mapping[str, int] = {
    word: number
    for number, word in enumerate(
        _words(
            "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth "
            "fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
        ),
        start=1,
    )
} | {"thirtieth": 30, "fortieth": 40}

UNITS: Mapping[str, Unit] = {
    **dict.fromkeys(["day", "days"], Unit.DAY),
    **dict.fromkeys(["week", "weeks", "wk", "wks"], Unit.WEEK),
    **dict.fromkeys(["month", "months"], Unit.MONTH),
    **dict.fromkeys(["year", "years"], Unit.YEAR),
    **dict.fromkeys(["weekday", "weekdays"], Unit.WEEKDAY),
}

#: Kinds of class that have numbers of their own. The empty kind is any class of the course.
CLASS_KINDS: Mapping[str, str] = {
    **dict.fromkeys(["class", "meeting", "mtg", "session"], ""),
    **dict.fromkeys(["lecture", "lec", "lect"], "lecture"),
    **dict.fromkeys(["lab", "laboratory"], "lab"),
    "recitation": "recitation",
    "tutorial": "tutorial",
    "seminar": "seminar",
    "discussion": "discussion",
}

DAY_PARTS: Mapping[str, TimePoint] = {
    "morning": TimePoint.MORNING,
    "mornings": TimePoint.MORNING,
    "afternoon": TimePoint.AFTERNOON,
    "afternoons": TimePoint.AFTERNOON,
    "afternoonish": TimePoint.AFTERNOON,
    "evening": TimePoint.EVENING,
    "evenings": TimePoint.EVENING,
    "night": TimePoint.NIGHT,
    "nights": TimePoint.NIGHT,
}

#: Time zone words, as written -> as kept.
ZONES: Mapping[str, str] = {
    word: word.upper()
    for word in _words(
        "est edt cst cdt mst mdt pst pdt akst akdt hst gmt utc bst cet cest eet eest aest aedt acst awst nzst nzdt ist "
        "jst et ct mt pt"
    )
}

#: Days that outlines name, spellings -> the name under which term and region are searched.
_HOLIDAY_SPELLINGS: Mapping[str, str] = {
    "New Year's Day": "new year's day|new years day|new year's|new years|new year day",
    "New Year's Eve": "new year's eve|new years eve",
    "Martin Luther King Jr. Day": "martin luther king jr. day|martin luther king jr day|martin luther king day|"
    "martin luther king, jr. day|martin luther king, jr day|martin luther kings day|martin luther king's day|"
    "dr. martin luther king jr. day|mlk day|mlk jr. day|mlk jr day|"
    "mlk, jr. day|mlk",
    "Presidents' Day": "presidents' day|president's day|presidents day|president day|washington's birthday|"
    "washingtons birthday",
    "Valentine's Day": "valentine's day|valentines day|valentine day",
    "Groundhog Day": "groundhog day|ground hog day",
    "St. Patrick's Day": "st. patrick's day|st patrick's day|st patricks day|st. patricks day|saint patrick's day|"
    "saint patricks day",
    "April Fools' Day": "april fools' day|april fool's day|april fools day",
    "Good Friday": "good friday",
    "Easter Sunday": "easter sunday|easter day|easter",
    "Easter Monday": "easter monday",
    "Ash Wednesday": "ash wednesday",
    "Palm Sunday": "palm sunday",
    "Holy Thursday": "maundy thursday|holy thursday",
    "Ascension Day": "ascension day|ascension thursday",
    "Pentecost": "pentecost|whit sunday|white sunday|whitsunday|pentecost sunday",
    "Whit Monday": "whit monday|pentecost monday",
    "Corpus Christi": "corpus christi day",
    "Earth Day": "earth day",
    "May Day": "may day",
    "International Workers' Day": "international workers' day|international workers day",
    "Cinco de Mayo": "cinco de mayo",
    "Mother's Day": "mother's day|mothers' day|mothers day",
    "Mothering Sunday": "mothering sunday",
    "Memorial Day": "memorial day|decoration day",
    "Juneteenth": "juneteenth|juneteenth national independence day",
    "Father's Day": "father's day|fathers' day|fathers day",
    "Independence Day": "independence day",
    "Labor Day": "labor day|labour day",
    "Columbus Day": "columbus day",
    "Indigenous Peoples' Day": "indigenous peoples' day|indigenous people's day|indigenous peoples day",
    "Halloween": "halloween",
    "All Saints' Day": "all saints' day|all saints day",
    "Election Day": "election day",
    "Veterans Day": "veterans day|veteran's day|veterans' day",
    "Remembrance Day": "remembrance day",
    "Armistice Day": "armistice day",
    "Guy Fawkes Day": "guy fawkes day|guy fawkes night|bonfire night",
    "Canadian Thanksgiving": "canadian thanksgiving|canadian thanksgiving day",
    "Thanksgiving": "thanksgiving|thanksgiving day",
    "Black Friday": "black friday",
    "Cyber Monday": "cyber monday",
    "Christmas Eve": "christmas eve|xmas eve",
    "Christmas Day": "christmas day|christmas|xmas|xmas day|x-mas",
    "Boxing Day": "boxing day",
    "Canada Day": "canada day",
    "Victoria Day": "victoria day",
    "Family Day": "family day",
    "Civic Holiday": "civic holiday",
    "National Day for Truth and Reconciliation": "national day for truth and reconciliation|"
    "truth and reconciliation day|orange shirt day",
    "Australia Day": "australia day",
    "Anzac Day": "anzac day",
    "Waitangi Day": "waitangi day",
    "King's Birthday": "king's birthday|queen's birthday",
    "Patriots' Day": "patriots' day|patriots day|patriot's day",
    "Cesar Chavez Day": "cesar chavez day|césar chávez day",
    "Early May bank holiday": "early may bank holiday|may day bank holiday",
    "Spring bank holiday": "spring bank holiday|late may bank holiday",
    "Summer bank holiday": "summer bank holiday|august bank holiday|late august bank holiday",
    "Chinese New Year": "chinese new year|lunar new year|chinese lunar new year|chinese lunar new year's day|"
    "chinese new year's day|lunar new year's day|chinese new years day",
    "Diwali": "diwali|deepavali|divali",
    "Rosh Hashanah": "rosh hashanah|rosh hashana",
    "Yom Kippur": "yom kippur",
    "Passover": "passover",
    "Hanukkah": "hanukkah|chanukah",
    "Eid al-Fitr": "eid al-fitr|eid al fitr",
    "Eid al-Adha": "eid al-adha|eid al adha",
    "Ramadan": "ramadan",
}
#: The name of a break that the words do not name.
BREAK_NAME = "break"
#: Stretches without classes that schools name. They are looked up among the term's days off.
_BREAK_SPELLINGS: Mapping[str, str] = {
    "spring break": "spring break|spring recess|spring vacation|spring holiday|spring holidays",
    "fall break": "fall break|fall recess|autumn break|autumn recess",
    "winter break": "winter break|winter recess|winter vacation|winter holidays|winter holiday",
    "Christmas holidays": "christmas holidays|christmas break|christmas vacation",
    "holiday break": "holiday break|holiday recess",
    "Thanksgiving break": "thanksgiving break|thanksgiving recess|thanksgiving vacation|thanksgiving holidays",
    "Easter break": "easter break|easter recess|easter holidays|easter vacation",
    "summer break": "summer break|summer vacation|summer holidays",
    "midterm break": "midterm break|mid-term break|mid term break|midterm recess|mid-trimester break",
    "mid-semester break": "mid-semester break|midsemester break|mid-semester recess|midsemester recess",
    "half-term": "half-term|half term|half-term break|half term break|half-term holiday",
    "term break": "term break|semester break|inter-semester break",
    "reading week": "reading week|reading break",
    "study break": "study break|study week",
    "reading day": "reading day",
    "study day": "study day",
    "reading days": "reading days|reading period",
    "study days": "study days|study period",
    "dead week": "dead week",
    BREAK_NAME: "break|recess|vacation",
}
HOLIDAYS: Mapping[str, str] = {
    spelling: name
    for table in (_HOLIDAY_SPELLINGS, _BREAK_SPELLINGS)
    for name, line in table.items()
    for spelling in line.split("|")
}

#: Month and weekday words of the other languages that are tested, by ISO 639 code; ``dateparser`` translates them.
_FOREIGN_MONTH_SPELLINGS = {
    "es": (
        "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre setiembre", "octubre",
        "noviembre", "diciembre",
    ),
    "fr": (
        "janvier janv", "février fevrier févr", "mars", "avril", "mai", "juin", "juillet juil", "août aout",
        "septembre", "octobre", "novembre", "décembre decembre",
    ),
    "de": ("januar jänner", "februar", "märz", "", "mai", "juni", "juli", "", "", "oktober okt", "", "dezember dez"),
    "pt": (
        "janeiro", "fevereiro", "março", "abril", "maio", "junho", "julho", "agosto", "setembro", "outubro",
        "novembro", "dezembro",
    ),
    "it": (
        "gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno", "luglio", "agosto", "settembre", "ottobre",
        "novembre", "dicembre",
    ),
}  # fmt: skip
_FOREIGN_WEEKDAY_SPELLINGS = {
    "es": ("lunes", "martes", "miércoles miercoles", "jueves", "viernes", "sábado sabado", "domingo"),
    "fr": ("lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche"),
    "de": ("montag", "dienstag", "mittwoch", "donnerstag", "freitag", "samstag sonnabend", "sonntag"),
    "pt": ("segunda-feira", "terça-feira", "quarta-feira", "quinta-feira", "sexta-feira", "sábado", "domingo"),
    "it": ("lunedì", "martedì", "mercoledì", "giovedì", "venerdì", "sabato", "domenica"),
}


def _numbers(spellings: Mapping[str, tuple[str, ...]]) -> dict[str, int]:
    return {
        word: number for lines in spellings.values() for number, line in enumerate(lines, 1) for word in line.split()
    }


#: The words of each language, those that English has too left out.
FOREIGN_MONTHS: Mapping[str, str] = {code: " ".join(lines) for code, lines in _FOREIGN_MONTH_SPELLINGS.items()}
FOREIGN_WEEKDAYS: Mapping[str, str] = {code: " ".join(lines) for code, lines in _FOREIGN_WEEKDAY_SPELLINGS.items()}
#: The number of the month, and the weekday, that a word of any of these languages names.
FOREIGN_MONTH_NUMBERS: Mapping[str, int] = _numbers(_FOREIGN_MONTH_SPELLINGS)
FOREIGN_WEEKDAY_NAMES: Mapping[str, Weekday] = {
    word: Weekday(number) for word, number in _numbers(_FOREIGN_WEEKDAY_SPELLINGS).items()
}
#: Small words between the parts of a date in those languages -> what the English rules know.
FOREIGN_JOINTS: Mapping[str, str] = {
    **dict.fromkeys(_words("al bis au ao zum hasta até fino"), "to"),
    **dict.fromkeys(_words("el il le los den der dem am vom del du las la dia día"), ""),
}
