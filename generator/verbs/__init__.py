"""The commands, a module each, in the order in which the help lists them."""

from generator.verbs.adapt import adapt
from generator.verbs.build import build
from generator.verbs.check import check
from generator.verbs.compare import compare
from generator.verbs.cuts import cuts
from generator.verbs.figures import figures
from generator.verbs.gallery import gallery
from generator.verbs.new import new
from generator.verbs.printing import print_
from generator.verbs.record import record
from generator.verbs.schema import schema
from generator.verbs.serve import serve

VERBS = (new, check, build, print_, serve, figures, cuts, schema, record, compare, adapt, gallery)
