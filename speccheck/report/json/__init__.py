"""The JSON report for other programs, with the models from which its published schema is made.

Files:

    beside         what a review found beside the verdicts, as plain values in the shape of the JSON report
    beside_models  the shape of what stands beside the verdicts in the JSON report: deviations, observations, the
                   round before
    models         the shape of the JSON report, from which its published schema is made
    report         the JSON report, for other programs, and the schema that says what is in it
"""
