"""The language of formulas: sums with quantities, and questions about them, as a rule engineer writes them.

    deck_height - deck_clearance - stroke / 2 - rod         a quantity
    chord / sin(180 deg / bolts)                            numbers carry units; functions are called by name
    bore >= 84 mm and not boost > 1.2 bar                   a question, answered by yes or no
    >= 3 mm      < 4.0 mm      0.0 mm to 0.75 mm            comparisons, for whatever stands before them

It has + - * / and brackets, < <= > >= and `and`, `or`, `not`, names in small letters, and the functions in `FUNCTIONS`.
It has no `==` (a quantity is never met exactly), no powers (write x * x), no dots, quotes or assignments. The tree of a
formula has the kinds of node in `nodes` and no other, so whatever else a text contains is refused while it is read.

Sums are done in `Decimal` with 28 digits; both sides of a comparison are rounded to twelve before they are compared.
"""

from configurator.language.functions import FUNCTIONS as FUNCTIONS
from configurator.language.functions import Function as Function
from configurator.language.functions import Uncomputable as Uncomputable
from configurator.language.functions import of_floats as of_floats
from configurator.language.grammar import read as read
from configurator.language.grammar import read_comparison as read_comparison
from configurator.language.kinds import BOOLEAN as BOOLEAN
from configurator.language.kinds import check_comparison as check_comparison
from configurator.language.kinds import dimension_of as dimension_of
from configurator.language.nodes import Comparison as Comparison
from configurator.language.nodes import Formula as Formula
from configurator.language.reckoning import compares as compares
from configurator.language.reckoning import evaluate as evaluate
from configurator.language.reckoning import holds as holds
