"""The reply: review comments to send back.

Files:

    reply  one page that needs nothing else, made for paper
"""
