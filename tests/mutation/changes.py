"""Changed copies of a module or of a table of figures, one small change in each."""

from __future__ import annotations

import ast
import csv
import io
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

Words = list[str]
COMPARED = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
COMBINED = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mod,
    ast.Mod: ast.FloorDiv,
    ast.Pow: ast.Mult,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
    ast.BitXor: ast.BitOr,
}
PAIRS = ["min", "max", "minimum", "maximum", "argmin", "argmax", "any", "all", "logical_or", "logical_and"]
SWAPPED = {a: b for one, other in zip(PAIRS[::2], PAIRS[1::2], strict=True) for a, b in ((one, other), (other, one))}
DROPPED = {"abs", "round", "sqrt", "clip", "max", "min", "maximum", "minimum", "sorted", "reversed"}
UNREAD = {"annotation", "returns", "decorator_list"}
TOLD = (ast.Raise, ast.JoinedStr, ast.Import, ast.ImportFrom)  # sentences, not figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One changed file: where (function or column), on which line, what, and its whole text."""

    where: str
    line: int
    what: str
    text: str


def variants(node: ast.AST, words: Words) -> Iterator[ast.AST]:
    """What a node may be changed into."""
    match node:
        case ast.Compare(left=left, ops=ops, comparators=right):
            for i, op in enumerate(ops):
                for other in COMPARED[type(op)]:
                    yield ast.Compare(left, [*ops[:i], other(), *ops[i + 1 :]], right)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in COMBINED:
            yield ast.BinOp(left, COMBINED[type(op)](), right)
        case ast.BoolOp(op=op, values=values):
            yield ast.BoolOp(ast.And() if isinstance(op, ast.Or) else ast.Or(), values)
        case ast.UnaryOp(operand=operand):
            yield operand
        case ast.Constant(value=bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(value=int(value) | float(value)):
            yield ast.Constant(value + 1)
            if isinstance(value, float) and value:
                yield ast.Constant(value * 1.1)
        case ast.Constant(value=str(value)) if len(words) > 1:
            yield ast.Constant(words[(words.index(value) + 1) % len(words)])
        case ast.Call(func=func, args=[_, *_] as args, keywords=keywords):
            yield from called(func, args, keywords)
        case _:
            yield from turned(node)


def turned(node: ast.AST) -> Iterator[ast.AST]:
    """The other way at a fork, and a step left out."""
    match node:
        case ast.IfExp(body=body, orelse=orelse):
            yield from (body, orelse)
        case ast.If(test=test, body=then, orelse=orelse):
            yield ast.If(ast.UnaryOp(ast.Not(), test), then, orelse)
        case ast.AugAssign() | ast.Continue():
            yield ast.Pass()


def called(func: ast.expr, args: list[ast.expr], keywords: list[ast.keyword]) -> Iterator[ast.AST]:
    """A call of the opposite function, without the function, or with its last two arguments changed over."""
    name = func.attr if isinstance(func, ast.Attribute) else getattr(func, "id", "")
    if name in SWAPPED and isinstance(func, ast.Attribute):
        yield ast.Call(ast.Attribute(func.value, SWAPPED[name], func.ctx), args, keywords)
    elif name in SWAPPED:
        yield ast.Call(ast.Name(SWAPPED[name], ast.Load()), args, keywords)
    if name in DROPPED and not isinstance(args[0], ast.Starred | ast.GeneratorExp):
        yield args[0]
    if len(args) > 1 and name not in SWAPPED and ast.dump(args[-2]) != ast.dump(args[-1]):
        yield ast.Call(func, [*args[:-2], args[-1], args[-2]], keywords)


def public(node: ast.AST) -> bool:
    """Whether it is the list of public names."""
    return isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"


def places(node: ast.AST, where: str = "") -> Iterator[tuple[str, ast.AST, str, int | None, ast.AST]]:
    """Every node that may change: the function it stands in, its parent, the field and the place in it."""
    for field, value in ast.iter_fields(node):
        for i, child in enumerate(value) if isinstance(value, list) else ((None, value),):
            text = isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant)
            if field in UNREAD or text or not isinstance(child, ast.AST) or isinstance(child, TOLD) or public(child):
                continue
            inner = f"{where}.{child.name}".strip(".") if isinstance(child, ast.FunctionDef | ast.ClassDef) else where
            yield inner, node, field, i, child
            yield from places(child, inner)


def code_changes(source: str) -> Iterator[Change]:
    """Every change of a module."""
    tree = ast.parse(source)
    found, words = list(places(tree)), defaultdict(list)
    for where, _, _, _, node in found:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value not in words[where]:
            words[where].append(node.value)
    for where, parent, field, i, node in found:
        for other in variants(node, words[where]):
            slot, key = (vars(parent), field) if i is None else (getattr(parent, field), i)
            slot[key] = other
            what = " -> ".join(ast.unparse(ast.fix_missing_locations(n)).split("\n")[0] for n in (node, other))
            yield Change(where=where, line=getattr(node, "lineno", 0), what=what, text=ast.unparse(tree))
            slot[key] = node


def table_changes(source: str) -> Iterator[Change]:
    """Every number of a table a tenth larger, nought made a tenth."""
    lines = source.splitlines()
    head = next(n for n, line in enumerate(lines) if not line.startswith("#"))
    names, *body = csv.reader(lines[head:])
    for n, row in enumerate(body):
        for k, cell in enumerate(row):
            if cell.replace(".", "").removeprefix("-").isdigit():
                out = io.StringIO()
                csv.writer(out).writerow([*row[:k], f"{float(cell) * 1.1 or 0.1:.10g}", *row[k + 1 :]])
                at, new = head + 1 + n, out.getvalue().strip()
                text = "\n".join([*lines[:at], new, *lines[at + 1 :]]) + "\n"
                yield Change(where=names[k], line=at + 1, what=f"{lines[at]} -> {new}", text=text)


def spread(changes: list[Change], most: int) -> list[Change]:
    """At most so many of each function, evenly spread; all where `most` is 0."""
    by_place: dict[str, list[Change]] = defaultdict(list)
    for change in changes:
        by_place[change.where].append(change)
    return [c for of in by_place.values() for c in (of[:: -(-len(of) // most)] if most else of)]
