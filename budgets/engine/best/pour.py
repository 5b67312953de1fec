"""From classes back to expenses: the largest first, whole ones wherever one fits."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

Item = tuple[int, int]  # place of an expense, cents
Pieces = dict[tuple[int, int], int]  # place of an expense, taker -> cents


@dataclass(slots=True)
class Pile:
    """What is left of the items: whole ones, the largest first, and those already split."""

    whole: list[Item]
    split: list[Item] = field(default_factory=list)

    def take_whole(self, wanted: int) -> list[Item]:
        """Whole items, the largest first, as long as they fit."""
        taken, kept = [], []
        for place, cents in self.whole:
            if cents <= wanted:
                taken.append((place, cents))
                wanted -= cents
            else:
                kept.append((place, cents))
        self.whole = kept
        return taken

    def take_rest(self, wanted: int) -> list[Item]:
        """Parts of items: of one that is split already, else of the smallest that is enough."""
        taken = []
        while wanted and (self.split or self.whole):
            place, cents = self._next(wanted)
            part = min(cents, wanted)
            taken.append((place, part))
            wanted -= part
            if cents > part:
                self.split.append((place, cents - part))
        return taken

    def _next(self, wanted: int) -> Item:
        enough = [item for item in self.split if item[1] >= wanted]
        if enough:
            self.split.remove(enough[0])
            return enough[0]
        return self.whole.pop() if self.whole else self.split.pop()


def pour(items: Iterable[Item], wants: Sequence[Item]) -> Pieces:
    """Give every taker its cents. `wants` are takers and cents, together at most the items.

    >>> pour([(0, 50), (1, 30)], [(7, 60)])
    {(0, 7): 50, (1, 7): 10}
    """
    pile = Pile(sorted((item for item in items if item[1]), key=lambda item: (-item[1], item[0])))
    found: Pieces = {}
    for taker, wanted in sorted(wants, key=lambda want: (-want[1], want[0])):
        whole = pile.take_whole(wanted)
        rest = pile.take_rest(wanted - sum(cents for _, cents in whole))
        for place, cents in whole + rest:
            found[place, taker] = found.get((place, taker), 0) + cents
    return found


def pour_under(
    items: Sequence[Item], wants: Mapping[int, int], ceilings: Mapping[int, Mapping[int, int]]
) -> Pieces:
    """The same where takers may have no more than a ceiling of some items: those go first."""
    left, found = dict(items), Pieces()
    held = [taker for taker in ceilings if wants.get(taker)]
    for taker in held:
        fits = [
            (place, min(cents, ceilings[taker].get(place, cents))) for place, cents in left.items()
        ]
        part = pour(fits, [(taker, wants[taker])])
        found |= part
        for (place, _), cents in part.items():
            left[place] -= cents
    others = [(taker, cents) for taker, cents in wants.items() if cents and taker not in held]
    return found | pour(left.items(), others)


class Swaps:
    """Moves crumbs inside a class so that no sum changes.

    A crumb of one taker on an expense goes to another expense of that taker, which gives as many
    cents back to whoever has the rest of the first; or it grows there until it is none. Own money
    (-1) may keep crumbs.
    """

    def __init__(self, pieces: Pieces, sizes: Mapping[int, int], small: int) -> None:
        self.pieces, self.small = dict(pieces), small
        self.own = dict(sizes)
        for (place, _), cents in pieces.items():
            self.own[place] -= cents

    def tidy(self) -> Pieces:
        for (place, taker), cents in sorted(self.pieces.items()):
            crumb = 0 < cents < self.small and self.pieces[place, taker] == cents
            if crumb and not self._away(place, taker, cents):
                self._grown(place, taker, cents)
        return {key: cents for key, cents in self.pieces.items() if cents}

    def _away(self, place: int, taker: int, cents: int) -> bool:
        for heir, other in self._partners(place, taker):
            if self._swap(place, other, taker, heir, -cents):
                return True
        return False

    def _grown(self, place: int, taker: int, cents: int) -> bool:
        for heir, other in self._partners(place, taker):
            short = 0 if heir < 0 else self.small - self._has(other, heir)
            if self._swap(place, other, taker, heir, max(self.small - cents, short)):
                return True
        return False

    def _partners(self, place: int, taker: int) -> Iterator[tuple[int, int]]:
        """Whoever pays the rest of an expense, with every other expense of the class."""
        heirs = [key[1] for key in self.pieces if key[0] == place and key[1] != taker]
        for heir in (*sorted(heirs), -1):
            yield from ((heir, other) for other in sorted(self.own) if other != place)

    def _swap(self, place: int, other: int, taker: int, heir: int, cents: int) -> bool:
        """Give the taker so many cents more of one expense and less of the other, if tidy."""
        moves = (
            (place, taker, cents),
            (place, heir, -cents),
            (other, taker, -cents),
            (other, heir, cents),
        )
        if not all(self._tidy(who, self._has(where, who) + n) for where, who, n in moves):
            return False
        for where, who, n in moves:
            if who >= 0:
                self.pieces[where, who] = self._has(where, who) + n
            else:
                self.own[where] += n
        return True

    def _tidy(self, taker: int, cents: int) -> bool:
        return cents == 0 or cents >= (self.small if taker >= 0 else 0)

    def _has(self, place: int, taker: int) -> int:
        return self.pieces.get((place, taker), 0) if taker >= 0 else self.own[place]
