"""The shipped rulesets: every table against the values published for it, every example as it says."""
