"""Every sentence that is said of schedules, beside the rule that it belongs to.

- `files` (S1): files of another kind, locked, damaged, too large, or in another shape;
- `tables` (S2): sheets, headers, columns and rows;
- `cells` (S3): cells and lines;
- `settled` (S4 and S6): mapping files, data sheets, and what each file of a submittal was read as.
"""
