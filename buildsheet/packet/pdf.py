"""HTML to PDF: tagged, deterministic, with the packet's own fonts, and with nothing fetched from anywhere."""

import gc
import importlib
import logging
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from buildsheet.packet.fonts import fontconfig_file

# An attachment must bear a date; a packet without a revision has none, and today's would change the bytes.
UNDATED = datetime(1980, 1, 1, tzinfo=UTC)


class PaperError(RuntimeError):
    """The page engine complained: of a style it does not know, of something it could not load."""

    def __init__(self, complaints: Sequence[str]) -> None:
        self.complaints = tuple(complaints)
        super().__init__("; ".join(complaints))


@dataclass(frozen=True)
class Enclosure:
    """A file carried inside the PDF."""

    name: str
    description: str
    data: bytes


def write_pdf(
    html: str,
    *,
    title: str,
    author: str,
    subject: str = "",
    keywords: Sequence[str] = (),
    created: str | None = None,
    attachments: Sequence[Enclosure] = (),
    forms: bool = False,
) -> bytes:
    """Print a document as PDF/UA-1; the same arguments give the same bytes.

    `created` is a date such as 2026-03-14, or None for a document without one. Only data: addresses
    are opened. Raises PaperError for any complaint of the page engine, a warning included, and
    FontsNotCut if the typeface has not been made.
    """
    engine = _engine()
    with _complaints() as complaints, _rare_collection():
        document = engine.HTML(string=html, url_fetcher=_fetcher()).render(pdf_forms=forms)
        about = document.metadata
        about.title, about.authors, about.description = title, [author], subject
        about.keywords, about.created, about.modified = list(keywords), created, created
        about.attachments = [_attachment(engine, enclosure, created) for enclosure in attachments]
        written: bytes = document.write_pdf(pdf_variant="pdf/ua-1", pdf_forms=forms, finisher=_finish)
    if complaints:
        raise PaperError(complaints)
    return written


def _engine() -> Any:
    """WeasyPrint, loaded late (it takes most of a second) and shown no fonts but the packet's."""
    os.environ["FONTCONFIG_FILE"] = str(fontconfig_file())
    return importlib.import_module("weasyprint")


def _fetcher() -> Any:
    urls = importlib.import_module("weasyprint.urls")
    return urls.URLFetcher(allowed_protocols={"data"}, allow_redirects=False)


def _attachment(engine: Any, enclosure: Enclosure, created: str | None) -> Any:
    at = UNDATED if created is None else datetime.fromisoformat(created).replace(tzinfo=UTC)
    return engine.Attachment(
        string=enclosure.data, name=enclosure.name, description=enclosure.description,
        created=at, modified=at, relationship="Source",
    )  # fmt: skip


def _finish(_document: Any, pdf: Any) -> None:
    """What the engine leaves out: plain metadata, a scope for every table head, a print flag for every link."""
    pydyf = importlib.import_module("pydyf")
    for item in pdf.objects:
        if isinstance(item, pydyf.Stream):
            if item.extra.get("Type") == "/Metadata":
                item.compress = False
        elif isinstance(item, dict):
            if item.get("S") == "/TH" and "Scope" not in item["A"]:
                item["A"]["Scope"] = "/Column"
            if item.get("Type") == "/Annot" and "F" not in item:
                item["F"] = 4


@contextmanager
def _complaints() -> Iterator[list[str]]:
    """Collect what the engine logs from warning upwards; it draws on regardless and raises nothing."""
    found: list[str] = []

    class Collector(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            found.append(record.getMessage())

    log, collector = logging.getLogger("weasyprint"), Collector(logging.WARNING)
    log.addHandler(collector)
    try:
        yield found
    finally:
        log.removeHandler(collector)


@contextmanager
def _rare_collection() -> Iterator[None]:
    """A render makes many objects that live to its end; looking for garbage among them takes a tenth of its time."""
    before = gc.get_threshold()
    gc.set_threshold(200_000, 50, 100)
    try:
        yield
    finally:
        gc.set_threshold(*before)
