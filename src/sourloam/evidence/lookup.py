"""Finding a packaged thing by its id, its name or another word for it."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import Final, Generic, Protocol, TypeVar

from sourloam.base.errors import NotFound

LIKE_ENOUGH: Final = 0.33  # one word in three is shared
MOST_OFFERED: Final = 3


class Named(Protocol):
    """Something with an id, a name and other words for it."""

    @property
    def id(self) -> str:
        """Return its short name that never changes."""

    @property
    def name(self) -> str:
        """Return what a person calls it."""

    @property
    def synonyms(self) -> tuple[str, ...]:
        """Return what else it is called."""


Thing = TypeVar("Thing", bound=Named)


class Lookup(Generic[Thing]):
    """Things in the order of their table, by their id; `find` takes any of their words."""

    def __init__(self, kind: str, things: tuple[Thing, ...]) -> None:
        """Hold `things`; `kind` is what a message calls one of them.

        Raises
        ------
        ValueError
            If two things answer to the same words.
        """
        self.kind = kind
        self._by_id = {each.id: each for each in things}
        self._by_words: dict[str, Thing] = {}
        for each in things:
            for words in (each.id, each.name, *each.synonyms):
                if self._by_words.setdefault(_plain(words), each) is not each:
                    raise ValueError(f'two {kind}s answer to "{words}"')

    def __getitem__(self, key: str) -> Thing:
        try:
            return self._by_id[key]
        except KeyError:
            raise NotFound(self.kind, key, self.near(key)) from None

    def __iter__(self) -> Iterator[Thing]:
        return iter(self._by_id.values())

    def __len__(self) -> int:
        return len(self._by_id)

    def has(self, key: str) -> bool:
        """Whether a thing has that id."""
        return key in self._by_id

    def find(self, words: str) -> Thing:
        """Return the thing that `words` names: its id, its name or a synonym, however it is written.

        Raises
        ------
        NotFound
            If nothing answers to that; the error offers near names.
        """
        try:
            return self._by_words[_plain(words)]
        except KeyError:
            raise NotFound(self.kind, words, self.near(words)) from None

    def near(self, words: str) -> tuple[str, ...]:
        """Return the ids of up to three things whose words come near, nearest first."""
        plain = _plain(words)
        close = get_close_matches(plain, self._by_words, n=6, cutoff=0.7)
        shared = sorted(self._by_words, key=lambda each: -_shared(plain, each))
        alike = [each for each in shared if _shared(plain, each) >= LIKE_ENOUGH]
        ids = [self._by_words[each].id for each in (*close, *alike)]
        return tuple(dict.fromkeys(ids))[:MOST_OFFERED]


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").replace("_", " ").split())


def _shared(mine: str, its: str) -> float:
    """Return how many of the words of two names are the same, of all that they have."""
    one, other = set(mine.split()), set(its.split())
    return len(one & other) / len(one | other) if one | other else 0.0
