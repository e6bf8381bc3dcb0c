"""Every sentence that a review says beside the verdicts, with the rule that it belongs to.

- `evidence` (V1 and V2): the design list and product data;
- `registers` (V3, V4, V7, V8, V9): deviations, notes, what was received, weather files, sums over a year.

Portfolios (V5) and sweeps (V6) have their own catalogues.
"""
