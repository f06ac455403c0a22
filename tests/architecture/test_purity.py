"""The core is pure: what the import contracts cannot see, read from the syntax trees."""

import ast

import pytest

from tests.architecture.tree import PACKAGE, functions, modules, name_of, parsed, place, pure_modules, told

BANNED = frozenset(
    {"open", "print", "input", "exec", "eval", "compile", "breakpoint", "globals", "__import__", "hash"}
    | {"date.today", "datetime.date.today", "datetime.now", "datetime.utcnow", "datetime.today"}
    | {"datetime.datetime.now", "datetime.datetime.utcnow", "datetime.datetime.today"}
)
SEEDED = frozenset({"Generator", "SeedSequence", "BitGenerator", "PCG64", "PCG64DXSM", "Philox", "SFC64"})
MUTABLE_LITERALS = (ast.List, ast.Dict, ast.Set, ast.ListComp, ast.DictComp, ast.SetComp)
MUTABLE_CALLS = frozenset(
    {"list", "dict", "set", "bytearray", "defaultdict", "OrderedDict", "Counter", "deque"}
    | {f"np.{name}" for name in ("array", "asarray", "zeros", "ones", "full", "empty", "arange", "linspace")}
)


def impure_calls(tree: ast.Module) -> list[ast.Call]:
    hashes = [function for function in functions(tree) if function.name == "__hash__"]  # hash() has its place there
    excused = {id(node) for function in hashes for node in ast.walk(function) if name_of(node) == "hash"}
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call) and id(node.func) not in excused]
    return [call for call in calls if name_of(call.func) in BANNED or unseeded(call)]


def unseeded(call: ast.Call) -> bool:
    name = name_of(call.func)
    if name.rpartition(".")[2] == "default_rng":
        given = [*call.args, *(keyword.value for keyword in call.keywords)]
        return not given or (isinstance(given[0], ast.Constant) and given[0].value is None)
    return ".random." in f".{name}" and name.startswith(("np.", "numpy.")) and name.rpartition(".")[2] not in SEEDED


def grows(node: ast.AST) -> bool:
    """Whether this is a cache without a bound; a bounded memo of a pure function cannot be seen from outside."""
    if name_of(node) in {"functools.cache", "cache"}:
        return True
    named = isinstance(node, ast.Call) and name_of(node.func).endswith("lru_cache")
    return named and any(isinstance(given, ast.Constant) and given.value is None for given in first_values(node))


def first_values(call: ast.Call) -> list[ast.expr]:
    return [*call.args[:1], *(keyword.value for keyword in call.keywords if keyword.arg == "maxsize")]


def mutable_globals(tree: ast.Module) -> list[ast.stmt]:
    values = [(node, node.value) for node in tree.body if isinstance(node, ast.Assign | ast.AnnAssign)]
    return [
        node
        for node, value in values
        if isinstance(value, MUTABLE_LITERALS) or (isinstance(value, ast.Call) and name_of(value.func) in MUTABLE_CALLS)
    ]


def test_the_core_does_not_print_open_ask_the_clock_or_draw_unseeded():
    faults = [
        f"{place(path, call)}: {name_of(call.func)}(...)"
        for path in pure_modules()
        for call in impure_calls(parsed(path))
    ]
    assert not faults, told(
        faults, "The core takes values and returns values: take the date, text or seed as argument."
    )


def test_the_core_keeps_no_changeable_value_at_the_top_of_a_module():
    faults = [place(path, node) for path in pure_modules() for node in mutable_globals(parsed(path))]
    assert not faults, told(faults, "Use a tuple, a frozenset or a MappingProxyType, marked Final.")


def test_the_core_changes_no_global_and_keeps_no_cache_that_grows():
    faults = [
        place(path, node)
        for path in pure_modules()
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.Global) or grows(node)
    ]
    assert not faults, told(faults, "Nothing global: hand the value in. A memo needs a bound: lru_cache(maxsize=64).")


def test_only_verbs_import_inside_a_function():
    verbs = PACKAGE / "cli" / "verbs"
    faults = [
        place(path, node)
        for path in modules(PACKAGE)
        if verbs not in path.parents and path != PACKAGE / "cli" / "main.py"
        for function in functions(parsed(path))
        for node in ast.walk(function)
        if isinstance(node, ast.Import | ast.ImportFrom)
    ]
    assert not faults, told(faults, "Import at the top of the module; a circle is undone by moving a type upstream.")


@pytest.mark.parametrize(
    "code",
    [
        "print(1)",
        "date.today()",
        "datetime.datetime.now()",
        "default_rng()",
        "np.random.default_rng(None)",
        "np.random.normal(0.0, 1.0)",
        "hash(name)",
    ],
)
def test_an_impure_call_is_found(code):
    assert impure_calls(ast.parse(code))


@pytest.mark.parametrize(
    "code",
    ["np.random.default_rng(seed)", "np.random.Generator(bits)", "rng.normal()", "def __hash__(self): return hash(1)"],
)
def test_a_pure_call_is_let_through(code):
    assert not impure_calls(ast.parse(code))


@pytest.mark.parametrize(
    ("code", "found"),
    [
        ("A = []", 1),
        ("A: Final = {}", 1),
        ("A = dict(b=1)", 1),
        ("A: Final = MappingProxyType({})", 0),
        ("A = (1,)", 0),
    ],
)
def test_a_changeable_global_is_found(code, found):
    assert len(mutable_globals(ast.parse(code))) == found


@pytest.mark.parametrize(
    ("code", "found"), [("cache", True), ("lru_cache(maxsize=None)", True), ("lru_cache(maxsize=8)", False)]
)
def test_a_cache_without_a_bound_is_found(code, found):
    assert grows(ast.parse(code, mode="eval").body) == found
