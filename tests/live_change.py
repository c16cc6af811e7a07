"""A changed function put into a program that is already loaded, so that nothing need be imported for each change."""

from __future__ import annotations

import gc
import importlib
import pkgutil
import sys
from collections.abc import Iterable, Iterator
from inspect import CO_OPTIMIZED
from types import CodeType, FrameType, FunctionType
from typing import Any


class Loaded:
    """All modules of the package, imported once; and which of its functions ran as they were."""

    def __init__(self, package: str) -> None:
        self.ran: set[tuple[str, str]] = set()
        before = sys.getprofile()
        sys.setprofile(self._runs)
        root = importlib.import_module(package)
        for found in pkgutil.walk_packages(root.__path__, f"{package}."):
            importlib.import_module(found.name)
        sys.setprofile(before)

    def _runs(self, frame: FrameType, event: str, _: object) -> None:
        if event == "call":
            self.ran.add((frame.f_code.co_filename, frame.f_code.co_qualname))

    def put_in(self, file: str, source: str, changed: str) -> bool:
        """Whether `changed` could be put in place of the module's `source`: no more than functions differ, which
        nothing has asked yet and which are found. Where it could not, nothing is done."""
        was, will = compile(source, file, "exec"), compile(changed, file, "exec")
        if _shape(was, whole=False) != _shape(will, whole=False):
            return False
        pairs = list(zip(_functions(was), _functions(will), strict=True))
        other = [(old, new) for old, new in pairs if _shape(old) != _shape(new)]
        live = [
            each
            for each in gc.get_objects()
            if type(each) is FunctionType and each.__code__.co_filename == file
        ]
        found = [
            (new, [each for each in live if each.__code__.co_qualname == old.co_qualname])
            for old, new in other
        ]
        inner = {
            each.__code__.co_qualname.split(".<locals>")[0]
            for each in live
            if "<locals>" in each.__qualname__
        }
        for new, functions in found:
            if len(functions) != 1 or new.co_qualname in inner or (file, new.co_qualname) in self.ran:
                return False
            if functions[0].__code__.co_freevars != new.co_freevars:
                return False
        for new, functions in found:
            functions[0].__code__ = new
        return True


def forget(package: str, but: Iterable[str] = ()) -> None:
    """Have the package's modules imported again, but for these of its rooms."""
    for name in list(sys.modules):
        top, _, below = name.partition(".")
        if top == package and below.split(".")[0] not in (*but, ""):
            del sys.modules[name]


def _functions(code: CodeType) -> Iterator[CodeType]:
    """The functions of a module and the methods of its classes; not those within them."""
    for each in code.co_consts:
        if isinstance(each, CodeType):
            if each.co_flags & CO_OPTIMIZED:
                yield each
            else:
                yield from _functions(each)


def _shape(code: CodeType, *, whole: bool = True) -> tuple[Any, ...]:
    """What runs, wherever it stands; of functions within it the name alone, where it is not taken `whole`."""
    consts = tuple(
        (each.co_qualname if not whole and each.co_flags & CO_OPTIMIZED else _shape(each, whole=whole))
        if isinstance(each, CodeType)
        else (type(each).__name__, repr(each))
        for each in code.co_consts
    )
    return (code.co_code, code.co_names, code.co_varnames, code.co_freevars, code.co_cellvars, consts)
