"""Every sentence that proofreading says, beside the rule that it belongs to.

- `clauses` (P1, P2, P8): gaps, clashes, statements of the writer;
- `redundancy` (P3): conditions, exceptions, clauses, tables and definitions that change nothing;
- `wording` (P7): wording that says something else than its rule, or cannot be judged;
- `comparing` (P4, P5, P6): a specification beside a code, revisions, changes that no example notices.
"""
