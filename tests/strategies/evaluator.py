"""An evaluator of equations that shares nothing with the code under test."""

import ast


def value(text: str) -> int:
    """The value of a sum of whole numbers; any other expression is an error."""

    def of(node: ast.expr) -> int:
        if isinstance(node, ast.Constant) and type(node.value) is int:
            return node.value
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
            return of(node.left) + of(node.right)
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Sub):
            return of(node.left) - of(node.right)
        raise ValueError(f"not a sum: {text}")

    return of(ast.parse(text, mode="eval").body)


def sides(equation: str) -> tuple[str, str]:
    """The two sides of an equation with exactly one equals sign."""
    left, right = equation.split(" = ")
    return left, right


def is_true(equation: str) -> bool:
    """Whether both sides have the same value."""
    left, right = sides(equation)
    return value(left) == value(right)


def numbers(equation: str) -> list[int]:
    """The numbers that stand in an equation, in order."""
    tree = ast.parse(equation.replace("=", "=="), mode="eval")
    return [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)]
