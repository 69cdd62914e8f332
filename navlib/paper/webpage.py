"""A paper as a web page for a screen reader, and as plain text to write the answers into.

Both hold all words of the print, tables as tables, and of each sheet what can be told: its names, and
the figures of tide pages. A sheet that is measured on has to be had in print or as raised lines.
"""

from collections.abc import Iterator, Sequence
from html import escape
from typing import Any

from navlib import waters
from navlib.paper.overlay import base, said, title
from navlib.paper.printed import SHORT, cover, instructions, items_data
from navlib.paper.typeset import plain
from navlib.paper.variants import Extract, Paper
from navlib.questions.picture import TidePage
from navlib.sheets.bars import WARNING
from navlib.sheets.pages import read_out

_STYLE = (
    "body{font:1.15rem/1.6 sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem;"
    "color:#22262b;background:#fff}"
    ".caution{background:#7c1d14;color:#fff;padding:.4rem 1rem;font-weight:bold}"
    "table{border-collapse:collapse;margin:1rem 0}caption{text-align:left;font-weight:bold}"
    "th,td{border-bottom:1px solid #8b9197;padding:.25rem .8rem;text-align:left}"
    "section{border-top:2px solid #22262b;margin-top:2rem}"
)
_MEASURED = (
    "This sheet is measured and drawn on: use the print, or one with raised lines, at true size."
)


def paper_html(paper: Paper, *, number: str = "", name: str = "") -> str:
    """Return a paper as one web page that needs nothing else: headings, lists, tables, no script."""
    words = cover(paper)
    heading = f"{plain(paper.blueprint.title, SHORT)}"
    parts = [
        "<!doctype html>",
        '<html lang="en-GB"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{_safe(heading)}, {_safe(paper.code)}</title><style>{_STYLE}</style></head><body>",
        f'<p class="caution">{_safe(WARNING.capitalize())}</p><main>',
        f"<h1>{_safe(heading)}</h1>",
        _facts([["Paper", paper.code], *_whose(number, name), *words["facts"]]),
        *_paragraphs([words["centre"], words["note"]]),
        "<h2>Before you begin</h2>",
        _list(instructions(paper)),
        *_paragraphs(
            [f"You may use: {words['allowed']}", f"Not allowed: {words['not_allowed']}"],
        ),
        "<h2>Questions</h2>",
        *(_question(item) for item in items_data(paper)),
        *(["<h2>Sheets</h2>"] if paper.extracts else []),
        *(_sheet(extract) for extract in paper.extracts),
        "</main></body></html>",
    ]
    return "\n".join(filter(None, parts))


def paper_text(paper: Paper, *, number: str = "", name: str = "") -> str:
    """Return a paper in Markdown, with a line “Answer:” to write on after each thing asked."""
    words = cover(paper)
    lines = [f"# {_marked(plain(paper.blueprint.title, SHORT))}", "", WARNING.capitalize(), ""]
    facts = [["Paper", paper.code], *_whose(number, name), *words["facts"]]
    lines += [f"- {name}: {_marked(value)}" for name, value in facts]
    lines += ["", *(f"- {_marked(told)}" for told in instructions(paper)), ""]
    for item in items_data(paper):
        lines += [f"## Question {item['number']} [{item['marks']}]", ""]
        for one in [*item["text"], item["where"]]:
            lines += [_marked(one), ""] if one else []
        if item["table"]:
            table = item["table"]
            lines += [*_text_table(table["caption"], table["heads"], table["rows"]), ""]
        if item["working"]:
            lines += [f"Working ({item['working']} of the marks):", ""]
        for field in item["fields"]:
            lines += [f"{_marked(field['prompt'])}:", ""]
            options = [" ".join(filter(None, option)) for option in field.get("options", ())]
            lines += [*(f"- {_marked(option)}" for option in options), ""] if options else []
            lines += ["Answer: ", ""]
    for extract in paper.extracts:
        lines += [f"## Sheet {extract.number}: {title(extract.base)}", ""]
        lines += [_marked(told) + "\n" for told in _told(extract)]
        for table in _tables(extract):
            lines += [*_text_table(table.caption, table.heads, table.rows), ""]
    return "\n".join(lines)


def _safe(text: str) -> str:
    return escape(plain(text))


def _marked(text: str) -> str:
    """Return a text in which no sign counts as Markdown."""
    signs = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|!$"})
    return " ".join(plain(text).translate(signs).split())


def _whose(number: str, name: str) -> list[list[str]]:
    return [
        [word, plain(value, SHORT)]
        for word, value in (("Candidate", number), ("Name", name))
        if value
    ]


def _facts(facts: Sequence[Sequence[str]]) -> str:
    rows = "".join(f"<dt>{_safe(name)}</dt><dd>{_safe(value)}</dd>" for name, value in facts)
    return f"<dl>{rows}</dl>"


def _paragraphs(texts: Sequence[str]) -> Iterator[str]:
    return (f"<p>{_safe(text)}</p>" for text in texts if text)


def _list(texts: Sequence[str], sort: str = "ul") -> str:
    return f"<{sort}>{''.join(f'<li>{_safe(text)}</li>' for text in texts)}</{sort}>"


def _table(caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f'<th scope="col">{_safe(one)}</th>' for one in heads)
    body = "".join(f"<tr>{''.join(f'<td>{_safe(c)}</td>' for c in row)}</tr>" for row in rows)
    return (
        f"<table><caption>{_safe(caption)}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{body}</tbody></table>"
    )


def _text_table(caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    cells = [heads, ["---"] * len(heads), *rows]
    lines = [f"| {' | '.join(_marked(cell) for cell in row)} |" for row in cells]
    return [f"{_marked(caption)}:", "", *lines]


def _question(item: dict[str, Any]) -> str:
    marks = f"{item['marks']} mark{'s' * (item['marks'] != 1)}"
    working = f" Of these, for working: {item['working']}." if item["working"] else ""
    table = item["table"]
    parts = [
        f"<section><h3>Question {_safe(item['number'])}</h3><p>[{marks}]{working}</p>",
        *_paragraphs([*item["text"]]),
        _table(table["caption"], table["heads"], table["rows"]) if table else "",
        *_paragraphs([item["where"]]),
        "<h4>To answer</h4><ul>",
        *(f"<li>{_safe(f['prompt'])}{_choices(f)}</li>" for f in item["fields"]),
        "</ul></section>",
    ]
    return "".join(parts)


def _choices(field: dict[str, Any]) -> str:
    if "options" not in field:
        return f" ({_safe(field['after'])} behind the figure)" if field.get("after") else ""
    said_so = " (one of)" if field["form"] == "choice" else " (all, in order)"
    return said_so + _list([") ".join(filter(None, option)) for option in field["options"]])


def _sheet(extract: Extract) -> str:
    parts = [
        f"<section><h3>Sheet {extract.number}: {_safe(title(extract.base))}</h3>",
        *_paragraphs(_told(extract)),
        *(_table(one.caption, one.heads, one.rows) for one in _tables(extract)),
        "</section>",
    ]
    return "".join(parts)


def _told(extract: Extract) -> list[str]:
    measured = "" if isinstance(extract.base, TidePage) else _MEASURED
    return [text for text in (base(extract.base).alt, said(extract), measured) if text]


def _tables(extract: Extract) -> tuple[read_out.ReadOut, ...]:
    """Return the figures of a page of tides; none of a sheet."""
    shown = extract.base
    if not isinstance(shown, TidePage):
        return ()
    water = waters.load(shown.water)
    return read_out.page_read_out(water, shown.page, shown.port, shown.day)
