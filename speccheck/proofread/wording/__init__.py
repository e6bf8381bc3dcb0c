"""The words of a clause against the rule beside them, and words that leave open what is asked.

In: a ruleset whose clauses carry their wording. Out: findings, each on the clause whose words say something else.

Files:

    against_rule  what the words of a clause say otherwise than the rule beside them
    choices       services, places and materials that wording and rule name
    limits        "not less than", "over", "and larger" in wording, and the relations of rules
    lists         choices that one of the two leaves out; conditions that the words alone have
    numbers       numbers in wording and in rules: what the amounts of a free text can mean, and those that a clause
                  compares anything with
    paragraph     the wording that clauses share, beside the rules of all of them
    polarity      yes and no, all and any: a wording that forbids what its rule asks for, or asks for all where any one
                  is enough
    terms         another temperature than the one that the rule limits, and "below ambient" beside "more than"
    vague         phrases that leave open what is asked
"""
