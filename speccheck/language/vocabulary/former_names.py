"""Names by which terms of the shipped vocabulary went before: rulesets that use them mean the same terms still."""

from __future__ import annotations

from collections.abc import Mapping

FORMER_NAMES: Mapping[str, str] = {
    "installed resistance": "installed R-value",
    "lowest service temperature": "minimum use temperature",
    "highest service temperature": "maximum use temperature",
    "seam position": "longitudinal seam location",
    "adhesive voc": "adhesive VOC content",
    "sealant voc": "sealant VOC content",
    "coating voc": "coating VOC content",
    "adhesive lowest temperature": "adhesive minimum use temperature",
    "adhesive highest temperature": "adhesive maximum use temperature",
}
"""The name of today by the former one, folded by `fold`."""
