"""Why no schedule can answer a paragraph: the words by which a section asks for documents, acts, people, an order."""

from __future__ import annotations

import re

from speccheck.language.core import UncheckedReason

_WORDS = (
    (
        UncheckedReason.DOCUMENT,
        r"\bsubmit|\bsubmittals?\b|\bcertificat|\btest reports?\b|\bsamples?\b|\bproduct data\b|\bshop drawings?\b"
        r"|\bwarrant|\boperation and maintenance\b|\brecord drawings?\b|\bkeep a copy\b",
    ),
    (
        UncheckedReason.QUALIFICATION,
        r"\bqualif|\bexperience|\binstallers?\b.*\bshall\b|\blicensed\b|\btrained\b|\bapprentices",
    ),
    (
        UncheckedReason.OTHER_SECTION,
        r"\bsections? \d|\bdivision \d|\bspecified elsewhere|\bother sections?\b|\bby others\b",
    ),
    (
        UncheckedReason.MANUFACTURER,
        r"\bmanufacturer'?s?\b.*\b(?:instructions|recommend)|\baccording to manufacturer"
        r"|\brecommended by the manufacturer",
    ),
    (
        UncheckedReason.ORDER_OF_WORK,
        r"\b(?:before|after|until)\b.*\b(?:is|are|was|were|has|have|goes?)\b|\bprior to\b"
        r"|\bsequence\b|\bcoordinate\b|\bschedule the work\b",
    ),
    (
        UncheckedReason.ACT_ON_SITE,
        r"\bexamine|\binspect|\bverify|\bclean\b|\brepair|\bstore\b|\bdeliver|\bprotect from damage|\breplace\b"
        r"|\bremove\b|\bkeep\b.*\bdry\b|\bmock-?ups?\b|\btest\b.*\bon site\b|\bdispose|\bwear\b",
    ),
    (
        UncheckedReason.VAGUE,
        r"\bneat|\bworkman|\bas required\b|\bas necessary\b|\bas directed\b|\bwhere possible|\bpleasing|\bsuitable"
        r"|\bchosen by\b|\bselected by\b|\bfirst[- ]class|\bto the satisfaction\b|\bgood practice\b",
    ),
)


# "Suitable for stainless steel" names something that can be checked.
_SUITABLE = re.compile(
    r"\bsuitable\s+for\s+(?:use\s+)?(?:on\s+|in\s+)?(?!the\b|its\b|this\b|each\b|all\b)\w", re.IGNORECASE
)


def reason_of(text: str) -> UncheckedReason | None:
    """Return why no clause can check a paragraph, by the words in it, or None where none of them stands there."""
    reason = next((why for why, words in _WORDS if re.search(words, text, re.IGNORECASE)), None)
    return None if reason is UncheckedReason.VAGUE and _SUITABLE.search(text) else reason
