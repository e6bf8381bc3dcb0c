"""What is said of every TOML file, each under the rule of the kind of file that it was to be.

A message and what to write instead, both with their facts in braces; where a kind of file says itself what belongs into
it, that is the advice.
"""

from __future__ import annotations

NO_LARGER_THAN = ("`{file}` has more than {most} MB", "{advice}")
NOT_OPENED = ("`{file}` cannot be opened: {why}", "{advice}")
NOT_UTF_8 = ("`{file}` is not text in UTF-8", "save it as text in UTF-8")
TOO_DEEP = ("`{file}` has {deep}", "{advice}")
TOO_MANY_DIGITS = ("`{file}` has a number with too many digits", "{advice}")
NOT_TOML = ("this is not TOML: {why}", "{advice}")

NO_SUCH_KEY = ("there is no key `{key}`", "the keys are {keys}")
KEY_MISSING = ("the key `{key}` is missing", "write {wanted}")
NO_SUCH_VALUE = ("`{key}` cannot be `{value}`", "write {wanted}")
TEXT_WITHOUT_MARKS = ("`{key}` cannot be `{value}`", 'write it in quotation marks: "{value}"')
NO_TABLE_HERE = ("`{key}` cannot be a table", "write {wanted}")
