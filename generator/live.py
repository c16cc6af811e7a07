"""The manual while its spec is written: a small server that follows the spec and makes each page when it is asked for.

A save is answered by reading the spec and computing its figures; the browser, which waits for that, then asks for its
page anew. A spec with faults leaves the last good manual where it is and lays the faults over its pages. Nothing is
written to disk but the frame of the site, in a folder of its own that goes when the server goes.
"""

from __future__ import annotations

import errno
import gc
import html
import ipaddress
import json
import mimetypes
import socket
import sys
import threading
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from generator.findings import SpecError
from generator.in_sight import InSight, Sizes
from generator.manual import IN_SHARES, Manual, frame_files
from generator.output import write_changed
from generator.pages import PAGES
from generator.pages.page import anchor
from generator.resources import bundled
from generator.site import PageMaker, SiteError, build_site
from generator.watch import Watch

GC_THRESHOLDS = (2_000_000, 1000, 1000)
"""Thresholds at which Python looks for garbage by itself, where no browser asks for pages."""
LONG_POLL_SECONDS = 20.0
"""Seconds after which a waiting browser is answered though nothing has changed."""
ANYWHERE = "0.0.0.0"
"""Listening on every network that the machine has."""

_LONGEST_NUMBER = 20
_INDEX = "index.html"
_PICTURES = "pictures/"
_OF_THE_MANUAL = ("drawings/", "downloads/", "photos/", "assets/paper.css", "assets/bench.js")
"""What differs from spec to spec, beside the pages."""


@dataclass(frozen=True)
class State:
    """What a page must know: `number` changes with every save, `manual` with every good one."""

    number: int
    manual: int
    faults: str


class ManualStore:
    """The last good manual, and what is wrong with the spec since. `compile_spec` raises SpecError."""

    def __init__(self, compile_spec: Callable[[], Manual]) -> None:
        self._compile = compile_spec
        self._changed = threading.Condition()
        first = (
            int(time.time()) * 1000
        )  # a page of an earlier server never takes this one's states for its own
        self.state = State(first, first, "")
        self.manual: Manual | None = None

    def rebuild(self) -> None:
        """Read the spec anew. Whatever a half-written spec does, the store stays in order."""
        faults, manual = "", self.manual
        try:
            manual = self._compile()
        except SpecError as error:
            faults = "\n\n".join(finding.explained() for finding in error.findings)
        except Exception as error:
            faults = (
                f"The manual could not be made: {error}. Undo the last change, and please report this spec."
            )
        with self._changed:
            number = self.state.number + 1
            self.manual = manual
            self.state = State(number, self.state.manual if faults else number, faults)
            self._changed.notify_all()

    def wait(self, seen: int) -> State:
        """The state once it is another than `seen`, or after LONG_POLL_SECONDS."""
        with self._changed:
            self._changed.wait_for(lambda: self.state.number != seen, LONG_POLL_SECONDS)
            return self.state


class LiveSite:
    """Pages of the store's manual, made when they are asked for. `frame` is the built site without contents."""

    def __init__(self, store: ManualStore, pages_dir: Path, frame: Path) -> None:
        self.store = store
        self._maker = PageMaker(pages_dir)
        self._lock = threading.Lock()
        self._made: dict[str, bytes] = {}
        self._made_of = 0
        self._sizes: Sizes = {}
        self._pictures: InSight | None = None
        self._asked = ""
        self._cleared = 0
        self._pages = {f"{page.slug}.html": page for page in PAGES}
        self._frame = {
            path.relative_to(frame).as_posix(): path for path in frame.rglob("*") if path.is_file()
        }

    def answer(self, path: str) -> tuple[HTTPStatus, str, bytes]:
        """Status, type and body for a path without its leading slash."""
        name = path or _INDEX
        if name == "live.js":
            return HTTPStatus.OK, "text/javascript", (bundled("site_templates") / name).read_bytes()
        if name in self._pages:
            self._asked = name
            return HTTPStatus.OK, "text/html; charset=utf-8", self._page(name)
        if name.startswith("search/search_index"):
            return HTTPStatus.OK, _TYPES.guess_type(name)[0] or "", self._index(name)
        if name.startswith(_PICTURES):
            return self._picture(name)
        body = self._file(name) if name.startswith(_OF_THE_MANUAL) else self._static(name)
        if body is None:
            return HTTPStatus.NOT_FOUND, "text/plain", b"There is no such page in this manual."
        return HTTPStatus.OK, _TYPES.guess_type(name)[0] or "application/octet-stream", body

    def prepare(self) -> None:
        """Begin with the page that is open; its browser asks for it in a moment."""
        if self._asked:
            with suppress(Exception):  # the browser that asks gets the fault
                self._page(self._asked)

    def clear_up(self) -> None:
        """Look for garbage, once after each manual: right after its first page, while the browser shows that."""
        if self._cleared != self.store.state.manual:
            self._cleared = self.store.state.manual
            gc.collect()

    def _page(self, name: str) -> bytes:
        page = self._pages[name]
        state, body = self._once(
            name, lambda manual: self._maker.make(page.file, manual.page(page), manual.facts).encode()
        )
        return _with_script(_FIRST_FAULT if body is None else body, state)

    def _file(self, name: str) -> bytes | None:
        return self._once(name, lambda manual: manual.file(f"docs/{name}"))[1]

    def _picture(self, name: str) -> tuple[HTTPStatus, str, bytes]:
        """A picture of a step or part, `pictures/MANUAL/NAME`; refused when that manual is no longer the last."""
        number, _, which = name.removeprefix(_PICTURES).partition("/")
        state, body = self._once(name, lambda _: self._drawn(which))
        if number != str(state.manual):
            return HTTPStatus.CONFLICT, "text/plain", b"The manual has changed."
        if body is None:
            return HTTPStatus.NOT_FOUND, "text/plain", b"There is no such picture in this manual."
        return HTTPStatus.OK, "text/plain; charset=utf-8", body

    def _drawn(self, which: str) -> bytes | None:
        made = self._pictures.picture(which) if self._pictures else None
        return made.encode() if made else None

    def _once(self, name: str, make: Callable[[Manual], bytes | None]) -> tuple[State, bytes | None]:
        """What `make` makes of the last good manual, made once; with the state that it belongs to."""
        with self._lock:
            manual, state = self.store.manual, self.store.state
            if self._made_of != state.manual:
                self._made, self._made_of = {}, state.manual
                if manual:
                    self._pictures = InSight(manual.figures, self._sizes)
                    manual.take(IN_SHARES, self._pictures.boxes())
            if manual and name not in self._made and (body := make(manual)) is not None:
                self._made[name] = body
            return state, self._made.get(name)

    def _static(self, name: str) -> bytes | None:
        return self._frame[name].read_bytes() if name in self._frame else None

    def _index(self, name: str) -> bytes:
        """A search index of pages and marks alone: the texts change with every save."""
        rows = self.store.manual.figures.parts if self.store.manual else ()
        entries = [(f"{page.slug}.html", page.title, "") for page in PAGES]
        for row in rows:
            text = html.escape(f"{', '.join(row.marks)}: {row.name}")
            entries.append((f"part-sheets.html#{anchor(row.mark)}", html.escape(row.mark), text))
        index = {
            "config": _SEARCH,
            "docs": [dict(zip(("location", "title", "text"), entry, strict=True)) for entry in entries],
        }
        text = json.dumps(index)
        return (f"var __index = {text}" if name.endswith(".js") else text).encode()


_TYPES = mimetypes.MimeTypes()
"""Types of files as Python knows them. Those of the system may be any program's: a browser refuses a script as text."""
_TYPES.add_type("text/javascript", ".js")
_SEARCH = {
    "lang": ["en"],
    "separator": r"[\s\-]+",
    "pipeline": [],
    "fields": {"title": {"boost": 1000.0}, "text": {"boost": 1.0}},
}
"""How the theme's script is to read the index."""
_FIRST_FAULT = (
    b"<!doctype html><html lang='en'><head><meta charset='utf-8'><title>Faults in the spec</title></head>"
    b"<body><h1>There is no manual yet</h1><p>It appears here as soon as the spec has no more faults.</p></body></html>"
)


def _with_script(page: bytes, state: State) -> bytes:
    tag = f'<script src="live.js" data-state="{state.number}" data-manual="{state.manual}"></script></body>'
    # A page with faults asks at once, and gets them in the answer.
    tag = tag.replace(f'data-state="{state.number}"', 'data-state="0"') if state.faults else tag
    head, _, tail = page.rpartition(b"</body>")
    return head + tag.encode() + tail


def serve_live(
    compile_spec: Callable[[], Manual],
    watch: Sequence[Path],
    host: str = "127.0.0.1",
    port: int = 8000,
    *,
    on_ready: Callable[[str], None],
    on_fault: Callable[[str], None],
) -> None:
    """Serve the manual until interrupted, and rebuild it whenever a file of `watch` changes.

    `compile_spec` raises SpecError; its text goes to `on_fault` and onto the pages, and the last good manual stays.
    `on_ready` gets the address. A file of `watch` need not exist yet. Raises SiteError when the port cannot be had.
    """
    store = ManualStore(compile_spec)
    with TemporaryDirectory(prefix="bench-manual-") as work, _server(host, port) as server:
        changes = Watch(watch)
        store.rebuild()
        pages_dir, frame = Path(work, "pages"), Path(work, "site").resolve()
        write_changed(frame_files(), pages_dir)
        build_site(pages_dir, frame)
        server.site = LiveSite(store, pages_dir, frame)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        usual = gc.get_threshold()
        gc.freeze()
        gc.set_threshold(*GC_THRESHOLDS)
        try:
            on_ready(_address(server, host))
            if store.state.faults:
                on_fault(store.state.faults)
            while True:
                changes.wait()
                store.rebuild()
                if store.state.faults:
                    on_fault(store.state.faults)
                else:
                    server.site.prepare()
        except KeyboardInterrupt:
            pass
        finally:
            server.shutdown()
            gc.set_threshold(*usual)
            gc.unfreeze()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    request_queue_size = 128
    """Browsers that may knock at once; a page with many pictures asks for all of them together."""
    site: LiveSite
    host: str
    """The address to listen on, as it was given."""

    def server_bind(self) -> None:
        """Take the port for this server alone: on Windows two servers could have it, and one would get nothing."""
        if exclusive := getattr(socket, "SO_EXCLUSIVEADDRUSE", None):
            self.allow_reuse_address = False
            self.socket.setsockopt(socket.SOL_SOCKET, exclusive, 1)
        super().server_bind()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A reader who leaves is no fault."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    server: _Server
    protocol_version = "HTTP/1.1"
    timeout = 3 * LONG_POLL_SECONDS
    """Seconds for which a browser may keep a line without a word."""

    def do_GET(self) -> None:
        path, _, query = self.path.partition("?")
        try:
            if not self._is_asked_for():
                text = f"This manual can only be read at {_address(self.server, self.server.host)}\n"
                self._send(HTTPStatus.FORBIDDEN, "text/plain; charset=utf-8", text.encode())
            elif path == "/live":
                self._send(HTTPStatus.OK, "application/json", self._state(query))
            else:
                status, kind, body = self.server.site.answer(unquote(path).lstrip("/"))
                self._send(status, kind, body)
                if kind.startswith("text/html"):
                    self.server.site.clear_up()
        except Exception as error:  # one page that cannot be made must not end the others
            message = f"This page could not be made: {error}"
            page = f"<!doctype html><title>Fault</title><body><p>{html.escape(message)}</p></body>".encode()
            body = _with_script(page, self.server.site.store.state)
            self._send(HTTPStatus.INTERNAL_SERVER_ERROR, "text/html; charset=utf-8", body)

    def do_HEAD(self) -> None:
        self.do_GET()

    def _is_asked_for(self) -> bool:
        """Whether the browser asked for this machine itself, by its address or a name that was given.

        A page from elsewhere can have its own name lead to this machine, and would then read the manual as its own.
        """
        try:
            name = urlsplit(f"//{self.headers.get('Host', '')}").hostname or ""
        except ValueError:
            return False
        if name in {"localhost", self.server.host.lower()} - {ANYWHERE, "::"}:
            return True
        asked, reached = _ip(name), _ip(self.connection.getsockname()[0])
        return asked is not None and (asked.is_loopback or asked == reached)

    def _state(self, query: str) -> bytes:
        """The state once it is another than the one that the page has seen; at once when only the head is asked for."""
        seen = parse_qs(query).get("seen", ["0"])[0]
        known = int(seen) if seen.isdecimal() and len(seen) < _LONGEST_NUMBER and self.command == "GET" else 0
        state = self.server.site.store.wait(known)
        return json.dumps({"state": state.number, "manual": state.manual, "faults": state.faults}).encode()

    def _send(self, status: HTTPStatus, kind: str, body: bytes) -> None:
        try:
            self.send_response(status)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            self.send_header("Cache-Control", "no-store")
            self.send_header("Cross-Origin-Resource-Policy", "same-origin")
            self.end_headers()
            if self.command != "HEAD":
                self.wfile.write(body)
        except (ConnectionError, TimeoutError):
            self.close_connection = True  # the reader has left the page

    def log_message(self, format: str, *args: object) -> None:
        """Nothing: the writer looks at the page."""


def _ip(name: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        return None
    return getattr(address, "ipv4_mapped", None) or address


def _server(host: str, port: int) -> _Server:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    kind = type("_Family", (_Server,), {"address_family": family})
    try:
        server: _Server = kind((host, port), _Handler)
    except OSError as error:
        # a port that another server has for itself alone is no right of ours on Windows
        taken = error.errno in (errno.EADDRINUSE, errno.EACCES)
        way_out = "; name another port with --port" if taken else ""
        raise SiteError(f"cannot serve on {host}:{port}: {error.strerror}{way_out}") from error
    server.host = host
    return server


def _address(server: _Server, host: str) -> str:
    name = {ANYWHERE: "127.0.0.1"}.get(host, f"[{host}]" if ":" in host else host)
    return f"http://{name}:{server.server_port}/"


def network_address() -> str | None:
    """This machine's address on its network, for a tablet beside it; None without a network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # of a range for documentation (RFC 5737); nothing is sent
        except OSError:
            return None
        return str(probe.getsockname()[0])
