"""Verbs that have a module of their own, in the order in which the help lists them."""

from generator.verbs.adapt import adapt
from generator.verbs.compare import compare
from generator.verbs.gallery import gallery
from generator.verbs.record import record

VERBS = (record, compare, adapt, gallery)
