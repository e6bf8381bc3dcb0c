"""The reply: review comments to send back.

Files:

    reply  review comments by line and clause in the trade's wording, and the HTML page of them, made for paper
"""
