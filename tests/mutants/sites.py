"""Where the rooms' sources can be changed, and into what.

A site is one expression or statement, a mutant one change of it. What is
constant when the program is built (constants, patterns, attributes, types,
macros, `const fn`) and what is only built for tests is left alone.
"""

import re

import tree_sitter_rust
from tree_sitter import Language, Parser

PARSER = Parser(Language(tree_sitter_rust.language()))

LEFT_ALONE = {
    "attribute_item", "inner_attribute_item", "const_item", "static_item", "macro_invocation",
    "macro_definition", "type_arguments", "type_parameters", "array_type", "use_declaration",
    "parameters", "closure_parameters", "enum_item", "struct_item", "type_item", "line_comment",
    "block_comment", "const_block", "where_clause", "tuple_struct_pattern", "range_pattern",
}
BINARY = {
    "<": ("<=", ">="), "<=": ("<", ">"), ">": (">=", "<="), ">=": (">", "<"), "==": ("!=",),
    "!=": ("==",), "+": ("-", "*"), "-": ("+", "/"), "*": ("/", "+"), "/": ("*",), "%": ("/",),
    "&&": ("||",), "||": ("&&",), "&": ("|",), "|": ("&",), "<<": (">>",), ">>": ("<<",),
}
COMPOUND = {"+=": ("-=",), "-=": ("+=",), "*=": ("/=",), "/=": ("*=",), "|=": ("&=",), "&=": ("|=",)}
METHODS = {
    "min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor",
    "round": "floor", "is_some": "is_none", "is_none": "is_some", "is_ok": "is_err",
    "is_err": "is_ok", "first": "last", "last": "first", "min_by": "max_by", "max_by": "min_by",
    "min_by_key": "max_by_key", "max_by_key": "min_by_key", "is_some_and": "is_none_or",
    "is_none_or": "is_some_and", "saturating_add": "saturating_sub",
    "saturating_sub": "saturating_add", "checked_add": "checked_sub", "checked_sub": "checked_add",
    "checked_mul": "checked_add", "position": "rposition", "starts_with": "ends_with",
    "ends_with": "starts_with", "div_euclid": "rem_euclid", "rem_euclid": "div_euclid",
}
DROPPED_METHODS = {"abs", "sqrt", "unsigned_abs", "trim", "reverse"}
REVERSED_METHODS = {"cmp", "total_cmp"}
BY_RETURN_TYPE = [
    (r"bool$", ("true", "false")), (r"[iu](8|16|32|64|128|size)$", ("0", "1")),
    (r"f64$", ("0.0", "1.0")), (r"Option<", ("None", "Some(Default::default())")),
    (r"Vec<", ("Vec::new()",)), (r"String$", ("String::new()",)),
    (r"&'?\w* ?str$", ('""',)), (r"(Result<|impl |&|Self$|!)", ()), (r"", ("Default::default()",)),
]
CONSTANT = re.compile(r"\bconst ([A-Z][A-Z0-9_]*): (f64|[iu](?:8|16|32|64|128|size)) =")


def text(node):
    return node.text.decode()


def constants(sources):
    """Names and types of the numeric constants of the rooms; a name used for
    two types is left out."""
    found = {}
    for source in sources:
        for name, kind in CONSTANT.findall(source):
            found.setdefault(name, set()).add(kind)
    return {name: kinds.pop() for name, kinds in found.items() if len(kinds) == 1}


def tests_only(source):
    """Modules in files of their own that are only built for tests."""
    return re.findall(r"#\[cfg\(test\)\]\s*(?:pub(?:\(\w+\))? )?mod (\w+);", source)


class Finder:
    """Collects the mutants of one file: dictionaries with the span, how it is
    put in (`wrap`, `skip`, `enter`) and the text in its place."""

    def __init__(self, file, source, known):
        self.file, self.known, self.found = file, known, []
        self.fn = "?"
        self.walk(PARSER.parse(source.encode()).root_node)

    def add(self, node, how, kind, alt):
        line = node.start_point[0] + 1
        self.found.append({
            "file": self.file, "line": line, "fn": self.fn, "kind": kind, "how": how,
            "start": node.start_byte, "end": node.end_byte,
            "old": text(node) if how != "enter" else "", "new": alt,
        })

    def walk(self, node):
        after_test = False
        for child in node.children:
            if child.type == "attribute_item":
                after_test |= bool(re.search(r"\b(test|proptest)\b", text(child)))
                continue
            if child.type in ("line_comment", "block_comment"):
                continue
            if not after_test:
                self.visit(child, node)
            after_test = False

    def visit(self, node, parent):
        kind = node.type
        if kind in LEFT_ALONE or kind.endswith("_type"):
            return
        if kind == "match_pattern":
            if guard := node.child_by_field_name("condition"):
                self.guard(guard)
                self.visit(guard, node)
            return
        if kind.endswith("_pattern") or kind == "closure_parameters":
            return
        if parent.type in ("let_declaration", "let_condition", "for_expression") \
                and node == parent.child_by_field_name("pattern"):
            return
        if parent.type == "array_expression" and node == parent.child_by_field_name("length"):
            return
        if kind == "function_item":
            self.function(node)
            return
        self.mutate(node, parent)
        self.walk(node)

    def function(self, node):
        modifiers = [text(child) for child in node.children if child.type == "function_modifiers"]
        if any("const" in words for words in modifiers):
            return
        outer, self.fn = self.fn, text(node.child_by_field_name("name"))
        body = node.child_by_field_name("body")
        answer = node.child_by_field_name("return_type")
        if body is not None:
            answers = ("",) if answer is None else next(
                values for pattern, values in BY_RETURN_TYPE if re.match(pattern, text(answer)))
            for value in answers:
                self.add(body, "enter", "return", value)
            self.walk(body)
        self.fn = outer

    def guard(self, node):
        if "let " not in text(node):
            for value in ("true", "false"):
                self.add(node, "wrap", "guard", value)

    def mutate(self, node, parent):
        kind = node.type
        if kind == "binary_expression":
            left, op, right = (node.child_by_field_name(name) for name in ("left", "operator", "right"))
            if "let " not in text(node):
                for other in BINARY.get(text(op), ()):
                    self.add(node, "wrap", "operator", f"({text(left)}) {other} ({text(right)})")
        elif kind == "compound_assignment_expr":
            left, op, right = (node.child_by_field_name(name) for name in ("left", "operator", "right"))
            for other in COMPOUND.get(text(op), ()):
                self.add(node, "wrap", "operator", f"{text(left)} {other} {text(right)}")
        elif kind == "unary_expression" and text(node)[0] in "!-":
            self.add(node, "wrap", "sign", text(node)[1:])
        elif kind in ("integer_literal", "float_literal"):
            self.literal(node, parent)
        elif kind == "identifier" and text(node) in self.known:
            if parent.type != "scoped_identifier":
                self.constant(node)
        elif kind == "scoped_identifier":
            if text(node.child_by_field_name("name")) in self.known:
                self.constant(node)
        elif kind == "boolean_literal":
            self.add(node, "wrap", "literal", "false" if text(node) == "true" else "true")
        elif kind == "range_expression" and len(node.children) > 1:
            last = node.children[-1]
            if last.type not in ("..", "..=", "integer_literal"):
                for change in (f"{text(last)} + 1", f"{text(last)} - 1"):
                    self.add(last, "wrap", "range", change)
        elif kind == "call_expression":
            self.call(node)
        elif kind in ("if_expression", "while_expression"):
            condition = node.child_by_field_name("condition")
            if condition.type not in ("binary_expression", "unary_expression", "let_condition", "let_chain"):
                self.add(condition, "wrap", "condition", f"!({text(condition)})")
        elif kind == "expression_statement":
            if node.children[0].type in (
                "call_expression", "assignment_expression", "compound_assignment_expr",
                "try_expression", "return_expression", "continue_expression", "break_expression",
            ):
                self.add(node, "skip", "statement", "")
        elif kind == "match_arm" and parent.children[-2] != node:
            pattern = node.child_by_field_name("pattern")
            closing = text(parent.children[-2])
            if closing.startswith("_ ") and pattern.child_by_field_name("condition") is None:
                self.add(pattern, "arm", "arm", "")

    def literal(self, node, parent):
        if parent.type == "field_expression":
            return
        if node.type == "float_literal":
            zero = not re.search(r"[1-9]", text(node).split("e")[0])
            self.add(node, "wrap", "literal", "1.0" if zero else f"{text(node)} * 1.25")
            return
        self.add(node, "wrap", "literal", f"{text(node)} + 1")
        if re.search(r"[1-9]", re.sub(r"[iuf](8|16|32|64|128|size)$", "", text(node))):
            self.add(node, "wrap", "literal", f"{text(node)} - 1")

    def constant(self, node):
        change = " * 1.25" if self.known[text(node).split("::")[-1]] == "f64" else " + 1"
        self.add(node, "wrap", "constant", text(node) + change)

    def call(self, node):
        function = node.child_by_field_name("function")
        if function.type != "field_expression":
            return
        receiver, name = (text(function.child_by_field_name(part)) for part in ("value", "field"))
        arguments = text(node.child_by_field_name("arguments"))
        if name in METHODS:
            self.add(node, "wrap", "method", f"{receiver}.{METHODS[name]}{arguments}")
        elif name in DROPPED_METHODS:
            self.add(node, "wrap", "method", receiver)
        elif name in REVERSED_METHODS:
            self.add(node, "wrap", "method", f"{text(node)}.reverse()")
        elif name == "is_empty" and arguments == "()":
            self.add(node, "wrap", "method", f"!{text(node)}")


def render(source, mutants):
    """The source with the mutants put in, and the span of each in the new text."""
    data, spans = source, {}

    def rank(mutant):
        # Wider spans stand outside; of equal ones the order does not matter.
        return (mutant["start"], -mutant["end"], mutant["id"])

    def build(start, end, inside, base):
        out, at = b"", start
        while inside:
            outer, inside = inside[0], inside[1:]
            within = [one for one in inside if one["end"] <= outer["end"]]
            inside = [one for one in inside if one["end"] > outer["end"]]
            out += data[at:outer["start"]]
            at, number = outer["end"], outer["id"]
            before, after = {
                "wrap": (f"(if crate::mutant_switch::on({number}) {{ {outer['new']} }} else {{ ", " })"),
                "skip": (f"if !crate::mutant_switch::on({number}) {{ ", " }"),
                "enter": (f"{{ if crate::mutant_switch::on({number}) {{ return {outer['new']}; }} ", " }"),
                "arm": ("", f" if !crate::mutant_switch::on({number})"),
            }[outer["how"]]
            begin = base + len(out)
            out += before.encode()
            out += build(outer["start"], outer["end"], within, base + len(out)) + after.encode()
            spans[number] = (begin, base + len(out))
        return out + data[at:end]

    built = build(0, len(data), sorted(mutants, key=rank), 0)
    return built, spans
