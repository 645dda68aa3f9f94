# SPDX-License-Identifier: GPL-3.0-or-later
"""The mutants of a C source: small changes of its text that a test should notice."""
import hashlib
import re

TOKEN = re.compile(
    r"""(?P<comment>/\*.*?\*/|//[^\n]*)
      | (?P<directive>(?m:^)[ \t]*\#(?:\\\n|[^\n])*)
      | (?P<text>"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*')
      | (?P<number>(?:0[xX][0-9a-fA-F]+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)[uUlLfF]*)
      | (?P<word>[A-Za-z_]\w*)
      | (?P<sign><<=|>>=|\.\.\.|->|\+\+|--|<<|>>|<=|>=|==|!=|&&|\|\||[-+*/%&|^]=|.)""",
    re.X | re.S,
)

BINARY = {
    "<": ("<=", ">="),
    "<=": ("<", ">"),
    ">": (">=", "<="),
    ">=": (">", "<"),
    "==": ("!=",),
    "!=": ("==",),
    "+": ("-",),
    "-": ("+",),
    "*": ("/",),
    "/": ("*",),
    "%": ("*",),
    "&&": ("||",),
    "||": ("&&",),
    "&": ("|",),
    "|": ("&",),
    "+=": ("-=",),
    "-=": ("+=",),
    "*=": ("/=",),
    "/=": ("*=",),
    "|=": ("=", "&="),
    "&=": ("=", "|="),
}
# The bound itself makes a difference to a comparison of numbers of things, not to one of lengths.
BOUNDS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
COUNTED = re.compile(
    r"^(?:[i-n]|\d+|.*(?:count|size|lanes|modes|number|passes|_MAX|COUNT|LANES))$"
)
WORDS = {"true": "false", "false": "true", "NAN": "0.0", "INFINITY": "0.0"}

# What is inside the brackets of these is text for a reader, or is not seen by tests of results:
# messages, clean-up, room that is allocated, and what is settled when it is compiled.
NO_RESULT = re.compile(
    r"^(?:bite_(?:error|memory)_\w+|bite_(?:plan|remark)_text\w*|bite_plan_fault|\w*_free|free"
    r"|\w*printf|fixture_error|error_of|(?:bite_job_check_)?(?:fault|error)|sizeof"
    r"|_Static_assert|static_assert|__attribute__|bite_arena_alloc|calloc|malloc|realloc)$"
)
# Lines about memory that ran out: tests/memory and tests/machine make every request fail.
MEMORY = re.compile(r"out_of_memory|BITE_NO_MEMORY")
SMALLEST = 1e-6  # a smaller constant allows for rounding: nothing should depend on its size
CONTROL = {"if", "while", "for", "switch", "return", "do", "else", "case", "default", "goto"}
TYPES = set(
    "const static double float int char size_t bool void unsigned long short struct enum union"
    " typedef extern inline register volatile".split()
)


class Token:
    __slots__ = ("kind", "text", "start", "end")

    def __init__(self, kind, text, start, end):
        self.kind, self.text, self.start, self.end = kind, text, start, end


def tokens_of(text):
    tokens = []
    for match in TOKEN.finditer(text):
        kind = match.lastgroup
        if kind in ("comment", "directive") or match.group().isspace():
            continue
        tokens.append(Token(kind, match.group(), match.start(), match.end()))
    return tokens


class Mutant:
    """One change: text[start:end] becomes `put`, in a function of a file."""

    def __init__(self, path, text, function, kind, start, end, put):
        self.path, self.function, self.kind = path, function, kind
        self.start, self.end, self.put = start, end, put
        low = text.rfind("\n", 0, start) + 1
        high = text.find("\n", end)
        self.line = text.count("\n", 0, start) + 1
        self.before = " ".join(text[low:high].split())
        self.after = " ".join((text[low:start] + put + text[end:high]).split())

    def identity(self):
        return "\n".join((self.path, self.function, self.before, self.after))

    def order(self, seed):
        return hashlib.sha256(("%s\n%s" % (seed, self.identity())).encode()).hexdigest()

    def applied(self, text):
        return text[: self.start] + self.put + text[self.end :]


def matching(tokens):
    """For each opening bracket the index of the one that closes it."""
    pairs, open_at = {}, []
    for i, token in enumerate(tokens):
        if token.kind == "sign" and token.text in "([{":
            open_at.append(i)
        elif token.kind == "sign" and token.text in ")]}" and open_at:
            pairs[open_at.pop()] = i
    return pairs


def without_result(tokens, pairs):
    """Indices of tokens that are arguments of a call of NO_RESULT, or an enumeration."""
    out = set()
    for i, token in enumerate(tokens[:-1]):
        if token.kind != "word":
            continue
        if NO_RESULT.match(token.text) and i + 1 in pairs:
            out.update(range(i, pairs[i + 1] + 1))
        if token.text == "enum":
            brace = next((k for k in (i + 1, i + 2) if k in pairs and tokens[k].text == "{"), None)
            if brace is not None:
                out.update(range(i, pairs[brace] + 1))
    return out


def functions_of(tokens, pairs):
    """Bodies at the outermost level: (name, index of the opening brace, of the closing one)."""
    found, i = [], 0
    while i < len(tokens):
        if tokens[i].text == "{" and tokens[i].kind == "sign" and i in pairs:
            if i > 0 and tokens[i - 1].text == ")":
                depth, k = 0, i - 1
                while k >= 0:
                    depth += (tokens[k].text == ")") - (tokens[k].text == "(")
                    if depth == 0:
                        break
                    k -= 1
                found.append((tokens[k - 1].text, i, pairs[i]))
            i = pairs[i]
        i += 1
    return found


def constant_changes(word):
    """Other values of a literal: 0 and 1 for each other, 2 for 1, otherwise one more, or twice as
    much."""
    try:
        if re.match(r"0[xX]", word):
            return ()
        if re.match(r"^\d+[uUlL]*$", word):
            value = int(re.match(r"\d+", word).group())
            suffix = word[len(str(value)) :]
            others = {0: (1,), 1: (0, 2)}.get(value, (value + 1,))
            return tuple("%d%s" % (other, suffix) for other in others)
        value = float(word.rstrip("fFlL"))
    except ValueError:
        return ()
    if 0.0 < abs(value) < SMALLEST:
        return ()
    return ("1.0",) if value == 0.0 else (("0.0", "2.0") if value == 1.0 else (repr(2.0 * value),))


def is_rounding(token):
    if token.kind != "number" or not re.match(r"[\d.]+[eE]-\d+$", token.text):
        return False
    return float(token.text) < SMALLEST


def is_operand_end(token):
    if token.kind == "number":
        return True
    if token.kind == "word":
        return token.text not in CONTROL and token.text not in TYPES
    return token.text in (")", "]")


def initialized_tables(tokens, pairs):
    """Indices of what initializes data outside functions."""
    inside = {k for _, first, last in functions_of(tokens, pairs) for k in range(first, last + 1)}
    out = set()
    for i, token in enumerate(tokens):
        if i in inside or token.text != "=" or token.kind != "sign":
            continue
        if i + 1 in pairs:
            out.update(range(i + 1, pairs[i + 1]))
        else:
            k = i + 1
            while k < len(tokens) and tokens[k].text != ";":
                out.add(k)
                k += 1
    return out


def statement_end(tokens, pairs, i):
    while i < len(tokens) and tokens[i].text != ";":
        if tokens[i].text in "}{":
            return None
        i = pairs.get(i, i) + 1
    return i if i < len(tokens) else None


def statements(text, path, name, tokens, pairs, span, skip):
    """Deleted statements, changed return values and negated conditions of a function."""
    first, last = span
    heads = set()  # of loops
    for i in range(first + 1, last):
        if tokens[i].text == "for" and i + 1 in pairs:
            heads.update(range(i + 1, pairs[i + 1] + 1))
    for i in range(first + 1, last):
        token, before = tokens[i], tokens[i - 1]
        if token.text == "if" and i + 1 in pairs:
            close = tokens[pairs[i + 1]].start
            inner = text[tokens[i + 1].end : close]
            yield Mutant(path, text, name, "condition", tokens[i + 1].end, close, "!(%s)" % inner)
        if token.text == "?" and token.kind == "sign":
            start, end = tokens[condition_start(tokens, i, first)].start, tokens[i - 1].end
            yield Mutant(path, text, name, "condition", start, end, "!(%s)" % text[start:end])
        if before.text not in (";", "{", "}", ")", "else") or i in heads:
            continue
        if before.text == ")" and not follows_control(tokens, pairs, i - 1):
            continue
        end = statement_end(tokens, pairs, i)
        if end is None or end > last or i in skip:
            continue
        start, stop = token.start, tokens[end].start
        if token.text == "return":
            if end > i + 1:
                for put in ("0", "1"):
                    value = text[tokens[i + 1].start : stop]
                    if value not in ("0", "1", "false", "true", "NULL"):
                        yield Mutant(path, text, name, "return", tokens[i + 1].start, stop, put)
            continue
        if token.kind != "word" or token.text in CONTROL or token.text in TYPES:
            if token.text != "(":
                continue
        elif tokens[i + 1].kind == "word" or (
            tokens[i + 1].text == "*" and tokens[i + 2].kind == "word"
        ):
            continue  # a declaration
        if text[start:stop].startswith("(void)") and tokens[i + 4].text != "(":
            continue  # an argument that is not used
        yield Mutant(path, text, name, "deletion", start, stop, "(void)0")


def condition_start(tokens, mark, first):
    """The first token of the condition before a question mark."""
    k, depth = mark - 1, 0
    while k > first:
        sign = tokens[k].text if tokens[k].kind == "sign" else ""
        depth += (sign in (")", "]")) - (sign in ("(", "["))
        assigns = sign.endswith("=") and sign not in ("==", "!=", "<=", ">=")
        ends = assigns or sign in (",", ";", ":", "{", "}", "?") or tokens[k].text == "return"
        if depth < 0 or (depth == 0 and ends):
            break
        k -= 1
    return k + 1


def follows_control(tokens, pairs, close):
    """Whether the bracket closes the condition of if, while or for."""
    opens = next((o for o, c in pairs.items() if c == close), None)
    return opens is not None and tokens[opens - 1].text in ("if", "while", "for")


def expressions(text, path, name, tokens, indices, skip):
    """Operators and constants."""
    for i in indices:
        token = tokens[i]
        if i in skip or i == 0 or i + 1 >= len(tokens):
            continue
        if is_rounding(tokens[i - 1]) or is_rounding(tokens[i + 1]):
            continue
        if token.kind == "sign" and is_operand_end(tokens[i - 1]):
            counted = COUNTED.match(tokens[i - 1].text) or COUNTED.match(tokens[i + 1].text)
            for put in BINARY.get(token.text, ()):
                if BOUNDS.get(token.text) == put and not counted:
                    continue
                yield Mutant(path, text, name, "operator", token.start, token.end, put)
        elif token.kind == "sign" and token.text in ("-", "!"):
            yield Mutant(path, text, name, "operator", token.start, token.end, "")
        elif token.kind == "number" and tokens[i - 1].text not in ("case", "["):
            puts = constant_changes(token.text)
            if token.text == "1" and tokens[i - 1].text.endswith("=") and tokens[i + 1].text == ";":
                puts = puts[:1]  # a flag: 2 is true as well
            for put in puts:
                yield Mutant(path, text, name, "constant", token.start, token.end, put)
        elif token.kind == "word" and token.text in WORDS:
            yield Mutant(path, text, name, "constant", token.start, token.end, WORDS[token.text])


def is_wanted(mutant):
    return mutant.before != mutant.after and not MEMORY.search(mutant.before)


def mutants_of(path, text):
    """All mutants of a source, without repetitions of the same change of the same line."""
    tokens = tokens_of(text)
    pairs = matching(tokens)
    skip = without_result(tokens, pairs)
    tables = sorted(initialized_tables(tokens, pairs))
    found = list(expressions(text, path, "", tokens, tables, skip))
    for name, first, last in functions_of(tokens, pairs):
        found += expressions(text, path, name, tokens, range(first, last), skip)
        found += statements(text, path, name, tokens, pairs, (first, last), skip)
    return list({mutant.identity(): mutant for mutant in found if is_wanted(mutant)}.values())
