"""Reports of a portfolio of schedules: page, JSON, and rows for other programs.

Files:

    files    the reports of a portfolio in its output folder: each whole, and the same for the same schedules; JSON is
             a stream
    wording  what a portfolio comes to, in words that its reports share
"""
