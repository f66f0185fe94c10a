"""One walk over every registered formula: documented, cited, runnable example, body within the grammar."""

import ast
import doctest
import inspect
import textwrap
from math import pi

import pytest

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import REGISTRY, Constant, Formula, OutsideLimits, formula
from buildsheet.units import NUMBER, UNITS, Number, Ohm, Unit, Volt
from buildsheet.worksheet.equation import GrammarError, letters, worked
from tests.formulas.walk import FORMULAS, example

ANY_FORMULA = pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
FUNCTIONS = {"sqrt", "log", "exp", "sin", "cos", "tan", "asin", "acos", "atan", "min", "max", "ceil"}
SOURCES = {"original", "scan", "secondary copy", "memory", "practice", "derivation", "own design"}


def test_the_walk_meets_every_module() -> None:
    """Each module of the package has formulas, so that none is left out of the walk."""
    modules = {one.function.__module__ for one in FORMULAS.values()}

    assert {module.rpartition(".")[2] for module in modules} >= {
        "battery", "braking", "choice", "conductors", "controls", "cooling", "cutting", "induction", "inverter", "mechanics",
        "motor", "protection", "rotor", "series", "shunt", "smoothing", "tachometer", "transformer", "triac",
    }  # fmt: skip


@ANY_FORMULA
def test_docstring_has_a_summary_and_an_example_that_runs(one: Formula[...]) -> None:
    """The example is run as a doctest in the formula's own module; it is of the registered formula itself."""
    assert one.summary.endswith(".")
    assert example(one)
    names = {**vars(inspect.getmodule(one.function)), one.name: one}
    found = doctest.DocTestFinder().find(one.function, one.name, globs=names)
    runner = doctest.DocTestRunner(verbose=False)

    failed = sum(runner.run(test).failed for test in found if test.examples)

    assert any(test.examples for test in found)
    assert failed == 0


@ANY_FORMULA
def test_source_names_a_work_and_how_it_was_read(one: Formula[...]) -> None:
    """A standard is named with its clause or edition; what has none says derivation or practice."""
    assert isinstance(one.source, Citation)
    assert one.source.work.strip()
    assert one.source.read_from in SOURCES
    if one.source.read_from in ("secondary copy", "original", "scan"):
        assert one.source.at or one.source.edition or "," in one.source.work


@ANY_FORMULA
def test_constants_have_symbol_kind_and_source(one: Formula[...]) -> None:
    """Every number of the module that a body uses by name is a Constant with its own source."""
    for name in _names(one):
        value = one.function.__globals__.get(name)
        if isinstance(value, float) and name != "pi":
            assert isinstance(value, Constant), name
            assert value.symbol
            assert value.unit in UNITS
            assert value.source.work


@ANY_FORMULA
def test_arguments_are_plain_and_of_a_kind(one: Formula[...]) -> None:
    """No defaults, no stars; kinds come from the one list."""
    for parameter in inspect.signature(one.function).parameters.values():
        assert parameter.default is inspect.Parameter.empty
        assert parameter.kind is inspect.Parameter.POSITIONAL_OR_KEYWORD
    assert all(isinstance(unit, Unit) for unit in (*one.arguments.values(), one.gives))
    assert set(one.limits) <= set(one.arguments)
    assert all(low < high for low, high in one.limits.values())


@ANY_FORMULA
def test_body_keeps_to_the_grammar(one: Formula[...]) -> None:
    """Annotated assignments, branches and returns; names are arguments, intermediates, constants and known functions."""
    known = set(one.arguments)
    for statement in _statements(_body(one)):
        assert isinstance(statement, ast.AnnAssign | ast.If | ast.Return), ast.unparse(statement)
        if isinstance(statement, ast.AnnAssign):
            assert isinstance(statement.target, ast.Name)
            known.add(statement.target.id)
    for name in _names(one):
        value = one.function.__globals__.get(name)
        assert name in known | FUNCTIONS | {"pi"} or isinstance(value, Constant), name
    assert letters(one)


def test_numbers_in_a_body_are_only_those_of_a_shape() -> None:
    """What stands as a bare number is a factor or power of the law itself; anything with a unit is a Constant. The list
    is kept by hand, so that a new number is looked at: it is dimensionless, which the dimension test proves."""
    allowed = {
        "free_box_area": {"1.8", "1.4"},  # factors of the effective area by mounting
        "wall_box_area": {"1.8", "1.4"},
        "air_share": {"1", "5.256"},  # exponent of the standard atmosphere
        "gauge_area": {"92", "36", "39", "2", "4"},  # the gauge's own definition
        "three_phase_shaft_power": {"3"},  # √3 of three phases
        "three_phase_efficiency": {"3"},
        "inverter_loss": {"1", "3"},
        "three_phase_copper_loss": {"2", "3"},  # three windings of half the resistance between two leads
        "delta_winding": {"2", "3"},  # one beside two in a row
        "solid_disc_factor": {"3", "8"},  # elasticity of a spinning disc, (3 + ν)/8
        "bored_disc_factor": {"1", "2", "3", "4"},
    }
    for name, one in FORMULAS.items():
        numbers = {
            ast.unparse(node)
            for statement in _body(one)
            for node in ast.walk(statement)
            if isinstance(node, ast.Constant)
        }
        assert numbers <= allowed.get(name, {"1", "2", "4"}), name


def _body(one: Formula[...]) -> list[ast.stmt]:
    function = ast.parse(textwrap.dedent(inspect.getsource(one.function))).body[0]
    assert isinstance(function, ast.FunctionDef)
    return function.body[1:]


def _statements(body: list[ast.stmt]) -> list[ast.stmt]:
    found = []
    for statement in body:
        found.append(statement)
        if isinstance(statement, ast.If):
            found += _statements(statement.body) + _statements(statement.orelse)
    return found


def _names(one: Formula[...]) -> set[str]:
    expressions = [
        part
        for statement in _statements(_body(one))
        for part in (getattr(statement, "value", None), getattr(statement, "test", None))
        if part
    ]
    return {
        node.id for expression in expressions for node in ast.walk(expression) if isinstance(node, ast.Name)
    }


SOMEWHERE = derivation("a test")


@pytest.fixture(autouse=True)
def _registry_as_it_was() -> object:
    before = dict(REGISTRY)
    yield
    REGISTRY.clear()
    REGISTRY.update(before)


def test_a_formula_without_kinds_is_refused() -> None:
    def bare(V: float) -> float:
        return V

    with pytest.raises(TypeError, match="every argument and the result need a kind"):
        formula(source=SOMEWHERE)(bare)


def test_limits_that_name_no_argument_are_refused() -> None:
    def doubled(V: Volt) -> Volt:
        return 2 * V

    with pytest.raises(TypeError, match="limits for \\['R'\\], which are no arguments"):
        formula(source=SOMEWHERE, limits={"R": (0, 1)})(doubled)


def test_a_name_is_registered_once() -> None:
    def back_emf(V: Volt) -> Volt:
        return V

    with pytest.raises(TypeError, match="formula back_emf is already registered"):
        formula(source=SOMEWHERE)(back_emf)


def test_loops_and_plain_assignments_are_outside_the_grammar() -> None:
    @formula(source=SOMEWHERE)
    def loose(x: Number) -> Number:
        """Bad on purpose."""
        y = x
        return y  # noqa: RET504  bad on purpose

    with pytest.raises(GrammarError, match="only assignments with a kind, branches and returns"):
        letters(loose)
    with pytest.raises(GrammarError, match="only assignments with a kind, branches and returns"):
        worked(loose, {"x": 1.0}, "x")


def test_an_expression_that_has_no_print_is_outside_the_grammar() -> None:
    @formula(source=SOMEWHERE)
    def listed(x: Number) -> Number:
        """Bad on purpose."""
        return [x, 2 * x][1]

    with pytest.raises(GrammarError, match="can't be printed"):
        letters(listed)


@pytest.mark.parametrize("worst", [float("nan"), float("inf"), float("-inf")])
@ANY_FORMULA
def test_numbers_that_are_none_are_refused(one: Formula[...], worst: float) -> None:
    """Neither infinity nor not-a-number goes in, whether the formula has limits or not."""
    for name in one.arguments:
        with pytest.raises(OutsideLimits, match=f"{name} is no finite number"):
            one(**{**example(one), name: worst})


def test_a_result_that_does_not_exist_is_refused() -> None:
    """A division by zero and the root of a negative number are outside, not a crash: volts and amperes of a test that
    can't both be right."""
    with pytest.raises(OutsideLimits, match="winding inductance has no result"):
        FORMULAS["winding_inductance"](V=1.0, I=1.0, R=5.0, f=60.0)
    with pytest.raises(OutsideLimits, match="slope resistance has no result"):
        FORMULAS["slope_resistance"](V_1=3.0, I_1=1.0, V_2=6.0, I_2=1.0)


def test_limits_hold_for_arguments_without_a_name() -> None:
    @formula(source=SOMEWHERE, limits={"R": (1.0, 2.0)})
    def kept(R: Ohm) -> Ohm:
        """Itself."""
        return R

    with pytest.raises(OutsideLimits, match=r"R is 3\.00 Ω, must be at most 2\.00 Ω"):
        kept(3.0)


def test_constant_is_a_float_that_knows_itself() -> None:
    made = Constant(pi, NUMBER, "pi", SOMEWHERE)

    assert made == pi
    assert (made.symbol, made.unit, made.source) == ("pi", NUMBER, SOMEWHERE)
