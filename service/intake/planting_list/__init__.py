"""Lists of trees that people send: as a file of columns, a workbook, a mail or a pasted text, read line by line.

A list takes one way: what was sent is opened as tables of rows (tables.py), the first rows tell what the columns hold
(columns.py), each text is cut into pieces (scan.py) that make a phrase (phrase.py), and names are settled by what
stands around them (naming.py). Nothing is fetched from anywhere, and no file is believed: not its ending, not its size.
"""

from service.intake.planting_list.expected import lines_expected
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.reader import ListReader, Stream
from service.intake.planting_list.tables import Upload

__all__ = ["ListLimits", "ListReader", "Stream", "Upload", "lines_expected"]
