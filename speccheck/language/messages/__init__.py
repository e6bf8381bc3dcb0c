"""Every sentence that is said of rulesets and vocabularies, beside the rule that it belongs to.

- `parsing` (L1): text that does not fit the language, files that cannot be read;
- `meaning` (L2): names, values, amounts and conditions;
- `rulesets` (L3): clauses, documents, relations, definitions, and what a ruleset builds on;
- `tables` (L4 and L5): tables and examples.
"""
