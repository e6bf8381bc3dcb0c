"""Reports as Markdown (CommonMark with tables), for wikis and letters.

Files:

    report  the Markdown report (CommonMark with tables), for wikis and letters, with its lists and tables; all text
            of others is escaped
"""
