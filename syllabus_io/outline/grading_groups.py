"""Which of the parts of a grade found in an outline make up the whole: the ones that add up to 100 or to the total."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.grading_shares import Share
from syllabus_io.outline.vocabulary import find_work_words

__all__ = ["ShareGroup", "choose_group", "resolved_group"]

_CLOSE = 0.6


@dataclass(frozen=True, slots=True)
class ShareGroup:
    """Parts of the grade that stand together. ``source`` is "table", "list" or "told".

    ``is_graded`` is 2 when they stand in a section about grading, 1 in one about requirements, else 0. ``before`` is
    the text just above, ``total`` a stated sum.
    """

    shares: tuple[Share, ...]
    source: str
    is_graded: int = 0
    before: str = ""
    total: float | None = None
    doubts: tuple[str, ...] = ()

    @property
    def in_percent(self) -> bool:
        """Whether the parts are written in percent rather than in points."""
        percents = [share.percent for share in self.shares if share.percent is not None and not share.is_total]
        return 2 * len(percents) >= len(self.shares) or (len(percents) >= 2 and abs(sum(percents) - 100) < _CLOSE)

    def sum(self) -> float:
        """The sum of what is not extra credit, in the group's own unit."""
        return sum(self.weights().values())

    def weights(self) -> dict[int, float]:
        """The weight of each part in the group's own unit, by its position."""
        found: dict[int, float] = {}
        for number, share in enumerate(self.shares):
            weight = share.percent if self.in_percent else share.points
            if weight is not None and not share.is_extra:
                found[number] = weight * (share.count or 1) if share.is_each else weight
        return found


def choose_group(groups: Sequence[ShareGroup]) -> ShareGroup | None:
    """The group that is the course's grading: complete before incomplete, tables before lists before sentences,
    sections about grading before others, the first of equals; None when nothing is believable."""
    outer = [group for group in groups if group.shares and not _is_part_of_another(group, groups)]
    scored = [(_score(group), -number, group) for number, group in enumerate(outer)]
    best = max(scored, key=lambda entry: entry[:2], default=None)
    return best[2] if best and best[0] > 0 else None


def _is_part_of_another(group: ShareGroup, groups: Sequence[ShareGroup]) -> bool:
    return any(_is_inside(group, share) for other in groups if other is not group for share in other.shares)


def _is_complete(group: ShareGroup) -> bool:
    total = group.sum()
    if group.in_percent:
        return abs(total - 100) < _CLOSE
    return bool(group.total) and abs(total - (group.total or 0)) < _CLOSE


def _score(group: ShareGroup) -> float:
    count = len(group.shares)
    total = group.sum()
    work = sum(bool(find_work_words(share.name)) for share in group.shares)
    if count < 2 or work == 0 or (not group.is_graded and 3 * work < count):
        return 0.0
    score = {"table": 6.0, "list": 5.0, "told": 2.0}[group.source] + 3.0 * group.is_graded
    score += min(work, 6) * 0.3
    if _is_complete(group):
        return score + 100.0
    if group.in_percent:
        if not (30 <= total <= 160) or (group.source == "told" and not group.is_graded):
            return 0.0
        return score + 20.0 - abs(total - 100) * 0.4
    if not group.is_graded and group.source != "table":
        return 0.0
    if count < 3 or total < 20:
        return 0.0
    return score + (60.0 if group.total else 15.0)


def resolved_group(group: ShareGroup, known_counts: dict[int, int] | None = None) -> ShareGroup:
    """The group at one level: sums written out of several equal marks, sub-parts not counted beside their whole.

    ``known_counts`` are counts, by position, that other sentences of the outline state.
    """
    counts = known_counts or {}
    shares = [
        replace(share, count=counts[number]) if share.count is None and number in counts else share
        for number, share in enumerate(group.shares)
    ]
    totals = [share for share in shares if share.is_total]
    shares = [share for share in shares if not share.is_total]
    group = replace(group, shares=tuple(shares))
    stated = next((share.points if not group.in_percent else share.percent for share in totals), None)
    group = replace(group, total=stated or group.total)
    group = _one_level(_once(group))
    group = _counts_from_rest(group)
    return replace(group, shares=tuple(_written_out(share, group.in_percent) for share in group.shares))


def _once(group: ShareGroup) -> ShareGroup:
    """Parts named twice with the same weight taken once, but only where that brings the sum to 100."""
    if not group.in_percent or abs(group.sum() - 100) < _CLOSE:
        return group
    seen: dict[tuple[str, float | None], Share] = {}
    for share in group.shares:
        seen.setdefault((_stem(share.name), share.weight), share)
    smaller = replace(group, shares=tuple(seen.values()))
    return smaller if abs(smaller.sum() - 100) < abs(group.sum() - 100) else group


def _stem(name: str) -> str:
    return re.sub(r"[^a-z0-9]|s\b", "", name.lower())


def _one_level(group: ShareGroup) -> ShareGroup:
    """Wholes or their sub-parts, not both: sub-parts of one series give the whole its count, others replace it."""
    target = 100.0 if group.in_percent else group.total
    if target is not None and abs(group.sum() - target) < _CLOSE and not any(share.depth for share in group.shares):
        return group
    shares = list(group.shares)
    position = 0
    while position < len(shares):
        parts = _children(shares, position, group.in_percent)
        if not parts:
            position += 1
            continue
        parent, length = shares[position], len(parts)
        if _is_series(parts) or any(part.percent is None for part in parts) != (parent.percent is None):
            counted = replace(parent, count=parent.count or length, is_each=False)
            shares[position : position + 1 + length] = [counted]
            position += 1
        else:
            shares[position : position + 1 + length] = parts
            position += length
    changed = replace(group, shares=tuple(shares))
    if target is None or abs(changed.sum() - target) <= abs(group.sum() - target):
        return changed
    return group


def _children(shares: Sequence[Share], position: int, in_percent: bool) -> tuple[Share, ...]:
    """The next parts that are sub-parts of the one at a position: deeper ones, or ones that add up to it."""
    parent = shares[position]
    following = shares[position + 1 :]
    deeper = 0
    while deeper < len(following) and following[deeper].depth > parent.depth:
        deeper += 1
    if deeper >= 2 or (deeper and _stem(parent.name) in _stem(following[0].name)):
        return tuple(following[:deeper])
    whole = _whole(parent, in_percent)
    if whole is None or parent.is_each:
        return ()
    for length in range(2, min(len(following), 8) + 1):
        for parts in _read_each(following[:length]):
            weights = [_whole(part, in_percent) for part in parts]
            if None not in weights and abs(sum(weight or 0 for weight in weights) - whole) < 0.01:
                return parts
    return ()


def _read_each(parts: Sequence[Share]) -> Iterator[tuple[Share, ...]]:
    """The parts as written, then with the weight of one of several ("the exams are worth 20%") taken for each."""
    yield tuple(parts)
    for number, part in enumerate(parts):
        if not part.is_each and (part.count or 1) > 1:
            yield tuple(replace(one, is_each=True) if place == number else one for place, one in enumerate(parts))


def _whole(share: Share, in_percent: bool) -> float | None:
    weight = share.percent if in_percent else share.points
    return None if weight is None else weight * (share.count or 1) if share.is_each else weight


def _is_series(parts: Sequence[Share]) -> bool:
    stems = {re.sub(r"[^a-z]|\b(?:i{1,3}|iv|v|one|two|three|four)\b", "", part.name.lower()) for part in parts}
    return len(stems) == 1 and len(parts) >= 2


def _counts_from_rest(group: ShareGroup) -> ShareGroup:
    """The count of the one part written "each" without a number, where only one count makes the sum 100."""
    open_parts = [n for n, share in enumerate(group.shares) if share.is_each and share.count is None]
    if not group.in_percent or len(open_parts) != 1:
        return group
    number = open_parts[0]
    share = group.shares[number]
    rest = 100 - (group.sum() - (share.percent or 0))
    if share.percent and rest > 0 and abs(rest / share.percent - round(rest / share.percent)) < 0.01:
        shares = list(group.shares)
        shares[number] = replace(share, count=max(round(rest / share.percent), 1))
        return replace(group, shares=tuple(shares))
    return group


def _written_out(share: Share, in_percent: bool) -> Share:
    if not share.is_each:
        return share
    times = share.count or 1
    kept = times - share.drop if share.drop and not in_percent else times
    return replace(
        share,
        percent=None if share.percent is None else share.percent * times,
        points=None if share.points is None else share.points * max(kept, 1),
        is_each=False,
    )


def nested(outer: ShareGroup, groups: Sequence[ShareGroup]) -> ShareGroup:
    """The group with a part replaced by its own parts, where another group gives them as shares of that part."""
    shares: list[Share] = []
    for share in outer.shares:
        inner = next((group for group in groups if group is not outer and _is_inside(group, share)), None)
        if inner is None or share.percent is None:
            shares.append(share)
            continue
        factor = share.percent / 100
        shares.extend(
            replace(part, percent=None if part.percent is None else part.percent * factor) for part in inner.shares
        )
    return replace(outer, shares=tuple(shares))


def _is_inside(group: ShareGroup, share: Share) -> bool:
    if (
        not group.in_percent
        or abs(group.sum() - 100) >= _CLOSE
        or any(part.name == share.name for part in group.shares)
    ):
        return False
    words = re.escape(share.name.lower()).replace(r"\ ", r"\s+")
    return bool(re.search(rf"\bof (?:the |your )?{words}\b", group.before.lower()))


def runs(shares: Sequence[Share], gap_blocks: int) -> Iterator[tuple[Share, ...]]:
    """The parts in runs that stand at most so many blocks apart."""
    run: list[Share] = []
    for share in shares:
        if run and share.order - run[-1].order > gap_blocks:
            yield tuple(run)
            run = []
        run.append(share)
    if run:
        yield tuple(run)
