"""A layout's templates: facts of a plan go in, paragraphs come out."""

from collections.abc import Mapping
from traceback import walk_tb

from jinja2 import StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2 import Template as Compiled
from jinja2.sandbox import SandboxedEnvironment

from bookgen.binder.english import listed
from bookgen.binder.layout import Layout, Template
from bookgen.binder.typeset import MarkupError, Paragraph, paragraphs
from bookgen.errors import BookgenError, Finding


class Words:
    """A layout's templates, ready to be filled."""

    def __init__(self, layout: Layout) -> None:
        """Compile the templates.

        Raises:
            BookgenError: a template cannot be read.
        """
        environment = SandboxedEnvironment(
            autoescape=True, undefined=StrictUndefined, keep_trailing_newline=False
        )
        environment.filters["listed"] = listed
        self.templates = {
            name: (template.file, compiled(environment, template))
            for name, template in layout.templates.items()
        }

    def fill(
        self, name: str, facts: Mapping[str, object], parts: frozenset[str]
    ) -> list[Paragraph]:
        """Fill a template and read what comes out.

        name: one of `FILES`; parts: the names of the paragraphs that it may hold.

        Raises:
            BookgenError: the template says something that we do not know or cannot print.
        """
        file, template = self.templates[name]
        mend = "compare it with the template of the ordinary layout"
        try:
            return paragraphs(template.render(facts), parts)
        except (TemplateError, MarkupError, TypeError, ValueError, ArithmeticError) as error:
            problem = " ".join(str(error).split())
            raise BookgenError(Finding(f"{file}{line_of(error)}", problem, mend)) from error

    def named(
        self, name: str, facts: Mapping[str, object], parts: frozenset[str]
    ) -> Mapping[str, Paragraph]:
        """The paragraphs of a template that has each part once, by part.

        Raises:
            BookgenError: the template says something that we do not know or cannot print.
        """
        return {paragraph.part: paragraph for paragraph in self.fill(name, facts, parts)}


def line_of(error: BaseException) -> str:
    """In which line of a template it failed, as far as Python knows."""
    frames = walk_tb(error.__traceback__)
    lines = [line for frame, line in frames if frame.f_code.co_filename == "<template>"]
    return f", line {lines[-1]}" if lines else ""


def compiled(environment: SandboxedEnvironment, template: Template) -> Compiled:
    """Compile one template.

    Raises:
        BookgenError: it is no template.
    """
    try:
        return environment.from_string(template.text)
    except TemplateSyntaxError as error:
        place = f"{template.file}, line {error.lineno}"
        mend = "mend the line; Jinja's documentation explains the braces"
        raise BookgenError(Finding(place, str(error.message), mend)) from error
