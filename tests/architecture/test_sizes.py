"""Small things: modules, functions, parameters, nesting."""

import ast

from tests.architecture.tree import PACKAGE, ROOT, Function, functions, modules, parsed, place, told

MODULE_LINES, BODY_LINES, POSITIONAL, NESTING = 400, 60, 4, 3
BLOCKS = (ast.If, ast.For, ast.AsyncFor, ast.While, ast.With, ast.AsyncWith, ast.Try, ast.TryStar, ast.Match)
KERNEL = "kernel.py"  # compiled copies of readable functions are the one kind of exception


def body_lines(function: Function) -> int:
    body = function.body[1:] if ast.get_docstring(function) is not None else function.body
    return function.end_lineno - body[0].lineno + 1 if body else 0


def positional(function: Function) -> int:
    names = [arg.arg for arg in function.args.posonlyargs + function.args.args]
    return len(names) - (names[:1] in (["self"], ["cls"]))


def depth(statements: list[ast.stmt]) -> int:
    return max((depth_of(statement) for statement in statements), default=0)


def depth_of(statement: ast.stmt) -> int:
    if not isinstance(statement, BLOCKS):
        return 0
    chained = [other for other in getattr(statement, "orelse", []) if isinstance(other, ast.If)]
    if isinstance(statement, ast.If) and len(chained) == len(statement.orelse) == 1:  # elif
        return max(1 + depth(statement.body), depth_of(chained[0]))
    parts = [getattr(statement, name, []) for name in ("body", "orelse", "finalbody")]
    parts += [part.body for name in ("handlers", "cases") for part in getattr(statement, name, [])]
    return 1 + max(depth(part) for part in parts)


def all_functions(*, kernels):
    paths = [path for path in modules(PACKAGE) if kernels or path.name != KERNEL]
    return [(path, function) for path in paths for function in functions(parsed(path))]


def test_no_module_is_longer_than_its_limit():
    lengths = {
        path: len(path.read_text("utf-8").splitlines())
        for path in modules(PACKAGE, ROOT / "tests", ROOT / "tools", ROOT / "benchmarks")
    }
    faults = [f"{place(path)}: {lines} lines" for path, lines in lengths.items() if lines > MODULE_LINES]
    assert not faults, told(faults, f"Split by noun, not by 'part 2': at most {MODULE_LINES} lines to a module.")


def test_no_function_body_is_longer_than_its_limit():
    faults = [
        f"{place(path, function)}: {function.name} has {body_lines(function)} lines"
        for path, function in all_functions(kernels=False)
        if body_lines(function) > BODY_LINES
    ]
    assert not faults, told(faults, f"Compute or arrange, not both: at most {BODY_LINES} lines to a function body.")


def test_no_function_takes_more_positional_parameters_than_its_limit():
    faults = [
        f"{place(path, function)}: {function.name} takes {positional(function)}"
        for path, function in all_functions(kernels=False)
        if positional(function) > POSITIONAL
    ]
    assert not faults, told(faults, f"Put a * before the rest: at most {POSITIONAL} parameters by position.")


def test_no_function_nests_deeper_than_its_limit():
    faults = [
        f"{place(path, function)}: {function.name} nests {depth(function.body)} deep"
        for path, function in all_functions(kernels=False)
        if depth(function.body) > NESTING
    ]
    assert not faults, told(faults, f"Return early or name the inner part: at most {NESTING} blocks within each other.")


def test_the_measures_measure():
    lines = (
        "def f(self, a, b, *, c):",
        "    'Text.'",
        "    if a:",
        "        pass",
        "    elif b:",
        "        for _ in c:",
        "            pass",
    )
    function = ast.parse("\n".join(lines)).body[0]
    assert (body_lines(function), positional(function), depth(function.body)) == (5, 2, 2)
