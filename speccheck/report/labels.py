"""Labels of a picture that do not run into one another: each is moved up or down until it stands free."""

from __future__ import annotations

from dataclasses import dataclass, field

WIDE = 0.62
"""How wide a letter is at most on average, as a part of the size of type: generous for the serif faces in use."""
STEP = 4.0
FURTHEST = 15


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle that something takes up."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Tell whether the two share some place."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


def text_box(x: float, y: float, words: str, anchor: str, size: float) -> Box:
    """Return the place that words take up, as SVG draws them: `x` by their anchor, `y` their base line."""
    width = WIDE * size * len(words)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return Box(left, y - 0.9 * size, left + width, y + 0.3 * size)


@dataclass(slots=True)
class Labels:
    """The labels of one panel, and what else of it must not be covered; none is placed beyond `top` or `bottom`."""

    top: float
    bottom: float
    taken: list[Box] = field(default_factory=list)

    def place(self, x: float, y: float, words: str, anchor: str = "start", size: float = 12) -> float | None:
        """Return the base line nearest to `y` at which the words stand free, None where there is no such place."""
        for step in (0, *(sign * number for number in range(1, FURTHEST) for sign in (1, -1))):
            box = text_box(x, y + step * STEP, words, anchor, size)
            inside = self.top <= box.top and box.bottom <= self.bottom
            if inside and not any(box.meets(other) for other in self.taken):
                self.taken.append(box)
                return y + step * STEP
        return None

    def keep_free(self, x: float, y: float, reach: float) -> None:
        """Keep labels away from a mark at a place, by `reach` pixels."""
        self.taken.append(Box(x - reach, y - reach, x + reach, y + reach))
