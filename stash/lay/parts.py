"""Kernels that only kernels call: no machine code is made of them but within their callers.

Numba optimises and emits every function by itself, then once more inside each caller, which
is half of the wait for a first lay. A part is handed on as it was written down; its caller
is optimised with it as one. This reaches into the compiler: where that is not built as is
expected, ``PartCompiler`` is None and parts are compiled like everything else.
"""

from __future__ import annotations

import ctypes
from typing import Any

from llvmlite import ir  # type: ignore[import-untyped]
from numba.core import cgutils, codegen, compiler

EXPECTED = (
    "_linking_libraries", "_final_module", "_reload_init", "_finalized", "_raise_if_finalized",
    "_get_module_for_linking", "_finalize_dynamic_globals", "enable_object_caching",
)


def _nothing(*_: Any) -> None:
    """What a call from outside the kernels runs into: a SystemError, not a crash."""


_refused = ctypes.PYFUNCTYPE(*(4 * [ctypes.c_void_p]))(_nothing)


class _Part(codegen.JITCodeLibrary):
    """Code to be linked into callers, neither optimised nor loaded by itself."""

    home: Any = None  # what of it is loaded: see ``_Environments``

    def finalize(self) -> None:
        """Gather what this calls in turn."""
        own: Any = self  # the compiler has no types
        own._raise_if_finalized()
        for library in dict.fromkeys(self._linking_libraries):
            self._reload_init.update(library._reload_init)
            self._final_module.link_in(library._get_module_for_linking(), preserve=True)
        own._finalize_dynamic_globals()
        self._finalized = True

    def get_pointer_to_function(self, name: str) -> int:
        """Nothing here can be called."""
        own: Any = self
        own._ensure_finalized()
        return ctypes.cast(_refused, ctypes.c_void_p).value or 0

    @property
    def codegen(self) -> _Environments:
        """The code generator, as far as a part needs one: to know its environment."""
        return _Environments(self, self._codegen)


class _Environments:
    """What a function's constants and exceptions are looked up in is told to the machine by
    the name of a global; of a part, that global is all that is loaded."""

    def __init__(self, part: _Part, own: Any):
        self.part, self.own = part, own

    def set_env(self, name: str, environment: Any) -> None:
        """Load the global, and point it at the environment."""
        home = self.own.create_library(f"{name}.home")
        module = home.create_ir_module(name)
        pointer = ir.GlobalVariable(module, cgutils.voidptr_t, name=name)
        pointer.linkage, pointer.initializer = "common", ir.Constant(cgutils.voidptr_t, None)
        home.add_ir_module(module)
        home.finalize()
        self.part.home = home
        self.own.set_env(name, environment)

    def __getattr__(self, name: str) -> Any:
        return getattr(self.own, name)


class _PartCompiler(compiler.Compiler):
    def __init__(self, typingctx: Any, targetctx: Any, library: Any, *rest: Any):
        if library is None:
            part: Any = _Part
            library = part(targetctx.codegen(), "part")
            library.enable_object_caching()
        made: Any = super().__init__
        made(typingctx, targetctx, library, *rest)


def _as_expected() -> bool:
    """True when the compiler has what parts are made of."""
    try:
        generator: Any = codegen.JITCPUCodegen
        library = generator("trial").create_library("trial")
    except Exception:  # any other version of the compiler may fail in any way
        return False
    return all(hasattr(library, name) for name in EXPECTED)


PartCompiler = _PartCompiler if _as_expected() else None
