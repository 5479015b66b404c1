"""The one family of errors. Each is one sentence: where, what is wrong, what would be right.

StraplineError (also a ValueError)
|-- PlanError        the plan file: a field or a corner
|-- CatalogueError   the anchor catalogue: a row and a column
|-- PackageError     the truss engineer's table of reactions: a row and a column
|-- LayoutError      a plan that reads well but cannot be framed
|-- SurveyError      a list of straps as set: a row and a column
|-- LoadError        a clause asked for something outside its limits
`-- OutputError      a file that cannot be written (a fault, not an input)
"""


class StraplineError(ValueError):
    """A sentence that a person can act on."""


class PlanError(StraplineError):
    """The plan file is wrong; the sentence names the field or the corner."""


class CatalogueError(StraplineError):
    """The anchor catalogue is wrong; the sentence names the row and the column."""


class SurveyError(StraplineError):
    """A list of straps as set is wrong; the sentence names the row and the column."""


class PackageError(StraplineError):
    """The truss engineer's table of reactions is wrong; the sentence names the row and the column."""


class LayoutError(StraplineError):
    """The plan cannot be framed; the sentence names the wall or the corner."""


class LoadError(StraplineError):
    """A clause was asked for something outside its limits; the sentence names them."""


class OutputError(StraplineError):
    """An output cannot be written; the sentence names the file."""
