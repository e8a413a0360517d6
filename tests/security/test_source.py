"""What the source of the service and of the client never does: run text as a program, or read what could run."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = sorted([*ROOT.glob("service/footvalve/**/*.py"), *ROOT.glob("client/footvalve_client/**/*.py")])

RUN_TEXT = {"eval", "exec", "compile", "__import__"}
READ_WHAT_RUNS = {"pickle", "cPickle", "dill", "marshal", "shelve", "jsonpickle", "cloudpickle", "joblib"}
RUN_SHELLS = {"os.system", "os.popen", "subprocess.getoutput", "subprocess.getstatusoutput", "commands.getoutput"}
GUESSED_NAMES = {"tempfile.mktemp", "os.tempnam", "os.tmpnam"}

EXCEPTIONS = {
    # Makes one function for each Struct, as dataclasses do, from the names of the contract's own fields: at import
    # or first use, never from anything that a caller sends.
    ("service/footvalve/contract/soundness.py", "exec"),
}


def dotted(node: ast.AST) -> str:
    """The name that is called, such as os.system."""
    match node:
        case ast.Name():
            return node.id
        case ast.Attribute():
            return f"{dotted(node.value)}.{node.attr}"
    return ""


def misdeeds(tree: ast.AST) -> Iterator[str]:
    """Everything in a module that must not be there."""
    safe = {name.name for name in ast.walk(tree) if isinstance(name, ast.ClassDef) and is_safe_loader(name)}
    for node in ast.walk(tree):
        match node:
            case ast.Import():
                yield from (a.name for a in node.names if a.name.partition(".")[0] in READ_WHAT_RUNS)
            case ast.ImportFrom(module=str(module)) if module.partition(".")[0] in READ_WHAT_RUNS:
                yield module
            case ast.Call():
                yield from in_call(node, safe)


def in_call(call: ast.Call, safe_loaders: set[str]) -> Iterator[str]:
    name = dotted(call.func)
    if name in RUN_TEXT | RUN_SHELLS | GUESSED_NAMES:
        yield name
    if any(word.arg == "shell" and getattr(word.value, "value", True) is not False for word in call.keywords):
        yield f"{name} with a shell"
    if any(word.arg == "verify" and getattr(word.value, "value", True) is False for word in call.keywords):
        yield f"{name} that trusts any certificate"
    if name in {"yaml.load", "yaml.load_all"} and not (safe_loaders and any(w.arg == "Loader" for w in call.keywords)):
        yield f"{name} of what could run"


def is_safe_loader(made: ast.ClassDef) -> bool:
    return any(dotted(base).endswith("SafeLoader") for base in made.bases)


@pytest.mark.parametrize("file", SOURCES, ids=lambda file: str(file.relative_to(ROOT)))
def test_no_module_runs_text_or_reads_what_could_run(file):
    name = str(file.relative_to(ROOT))
    found = set(misdeeds(ast.parse(file.read_text(encoding="utf-8"))))
    assert not [deed for deed in found if (name, deed) not in EXCEPTIONS]


@pytest.mark.parametrize(
    "source",
    [
        "eval('1')",
        "exec(text)",
        "import pickle",
        "from marshal import loads",
        "os.system('ls')",
        "subprocess.run('ls', shell=True)",
        "subprocess.run('ls', shell=wanted)",
        "yaml.load(text)",
        "yaml.load(text, Loader=yaml.Loader)",
        "httpx.get(url, verify=False)",
    ],
)
def test_each_misdeed_would_be_found(source):
    assert list(misdeeds(ast.parse(source)))


@pytest.mark.parametrize(
    "source",
    ["subprocess.run(['ls'])", "re.compile('a')", "class L(yaml.SafeLoader): pass\nyaml.load(text, Loader=L)"],
)
def test_what_is_harmless_passes(source):
    assert not list(misdeeds(ast.parse(source)))
