"""Data sheets: manufacturers' papers on a product, in PDF and Word, read for what a schedule states of the product.

In: a file, a vocabulary, the names of the products of a schedule. Out: rows of product data, as a table of product data
gives them, each datum with its page and its words. Nothing is guessed: a quantity counts only beside the words of its
property, or under them in a table, and in a unit of its kind.

Files:

    reading   a data sheet to rows of product data; which product it is about; standards, types and grades
    mentions  where a text speaks of a property, and the quantities of its kind
    facts     facts in a sentence: which property has which value, at which condition
    tables    facts in a table: names left of their values or above them, conditions in rows and columns
    dates     dates of test reports
"""

from speccheck.schedule.data_sheets.reading import is_data_sheet, read_data_sheet

__all__ = ["is_data_sheet", "read_data_sheet"]
