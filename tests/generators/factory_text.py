"""Ways of writing dates, and what surrounds them in outlines: policies, citations, scales, telephone numbers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from random import Random

from tests.generators.factory_plan import CoursePlan

__all__ = ["DateStyle", "Styler", "clock", "day_codes", "noise_after", "noise_before", "styler"]

DateStyle = Callable[[date], str]

SHORT = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
LONG = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
LETTERS = ("M", "T", "W", "Th", "F", "Sa", "Su")
MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]
SHORT_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec")


def _ordinal(number: int) -> str:
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


STYLES: dict[str, DateStyle] = {
    "month day": lambda day: f"{MONTHS[day.month - 1]} {day.day}",
    "short month day": lambda day: f"{SHORT_MONTHS[day.month - 1]} {day.day}",
    "dotted month day": lambda day: f"{SHORT_MONTHS[day.month - 1][:3]}. {day.day}",
    "weekday month day": lambda day: f"{LONG[day.weekday()]}, {MONTHS[day.month - 1]} {day.day}",
    "short weekday month day": lambda day: f"{SHORT[day.weekday()]} {SHORT_MONTHS[day.month - 1]} {day.day}",
    "weekday month ordinal": lambda day: f"{SHORT[day.weekday()]}, {MONTHS[day.month - 1]} {_ordinal(day.day)}",
    "month day year": lambda day: f"{MONTHS[day.month - 1]} {day.day}, {day.year}",
    "day month": lambda day: f"{day.day} {SHORT_MONTHS[day.month - 1]}",
    "weekday day month": lambda day: f"{SHORT[day.weekday()]} {day.day} {MONTHS[day.month - 1]}",
    "numbers": lambda day: f"{day.month}/{day.day}",
    "weekday numbers": lambda day: f"{SHORT[day.weekday()]} {day.month}/{day.day}",
    "letter numbers": lambda day: f"{LETTERS[day.weekday()]} {day.month}/{day.day}",
    "numbers year": lambda day: f"{day.month}/{day.day}/{day.year}",
    "iso": date.isoformat,
}


class Styler:
    """The one way in which an outline writes its dates."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._style = STYLES[name]

    def __call__(self, day: date) -> str:
        return self._style(day)


def styler(rng: Random, *, spoken: bool = False) -> Styler:
    """A random way of writing dates; ``spoken`` for sentences, where numbers alone are rare."""
    names = [name for name in STYLES if not spoken or ("month" in name and "dotted" not in name)]
    return Styler(rng.choice(names))


def clock(time: str, rng: Random) -> str:
    """A time of day as outlines write it."""
    hour, minute = (int(part) for part in time.split(":"))
    half = "a.m." if hour < 12 else "p.m."
    twelve = hour % 12 or 12
    minutes = f":{minute:02}" if minute else rng.choice(("", ":00"))
    return rng.choice(
        (f"{twelve}{minutes} {half}", f"{twelve}{minutes or ':00'}{half[0]}m", f"{twelve}{minutes} {half[0].upper()}M")
    )


def day_codes(days: tuple[int, ...], rng: Random) -> str:
    """Class days as outlines write them."""
    if rng.random() < 0.4:
        return "".join({0: "M", 1: "Tu", 2: "W", 3: "Th", 4: "F"}[day] for day in days)
    names = [LONG[day] + "s" for day in days]
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]


def noise_before(plan: CoursePlan, rng: Random) -> list[str]:
    """Sentences that stand above a schedule and date no work."""
    year = plan.first.year
    pool = [
        f"Textbook: {rng.choice(('Marrable', 'Oakhurst', 'Pellworm'))}, J. ({year - 6}, March). A Second Look (4th "
        "ed.). Saltmarsh Press. ISBN 978-0-00-123456-2.",
        f"Office hours: {rng.choice(('Mondays 2–3:30 pm', 'Tue 10–11 am and by appointment', 'after class'))}, "
        f"Room {rng.randrange(100, 420)}. Telephone: 555-01{rng.randrange(10, 99)}.",
        f"This course was first taught on October 3, {year - 11}, and has been revised every summer since.",
        "Please silence your telephone. Bring paper to every class.",
        "Prerequisite: one earlier course in the department or permission.",
        f"See Tern and Voss ({year - 2}), “Counting what counts”, Journal of Small Numbers, 14(2), 101–119.",
        "By the end of the course you will be able to explain, compare and defend your own reading of a case.",
    ]
    return rng.sample(pool, rng.randrange(3, 6))


def noise_after(plan: CoursePlan, rng: Random) -> list[str]:
    """Policies, with dates and examples in them that are no work."""
    add = Styler("month day")
    pool = [
        f"The last day to drop a course is {add(plan.first.replace(day=min(plan.first.day + 7, 28)))}; the last day to "
        f"withdraw is {add(date(plan.first.year, plan.last.month - 1, 6))}.",
        "Late work loses ten percent a day. Work that is due on a Monday and arrives on Wednesday loses twenty.",
        "If you are ill, write before class (555-0100). A doctor’s note is needed within one week.",
        f"The code of conduct of July 1, {plan.first.year - 1}, applies to everything you hand in.",
        "Students with accommodations should speak with the access office in the first two weeks of term.",
        "Nothing in this outline is a contract; changes are announced in class.",
        "Grades can be discussed from one day after the work is returned, for two weeks.",
    ]
    return rng.sample(pool, rng.randrange(3, 6))
