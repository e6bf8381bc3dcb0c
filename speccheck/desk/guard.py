"""Who may ask: only the browser that was given the token of this start, from a page of this desk.

A page elsewhere that names this machine by a name of its own (DNS rebinding) fails at the Host header, a request from
another page at Origin and the cookie, a request that is too long at its size. Every answer carries a policy that allows
no script but the desk's own files (Content Security Policy Level 3).
"""

from __future__ import annotations

import hmac
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_REQUEST = 60_000_000
SAFE_METHODS = ("GET", "HEAD")
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "frame-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
_HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cache-control": "no-store",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "x-frame-options": "DENY",
}


class TooLarge(Exception):
    """A request with more bytes than one may have."""


class Guard:
    """The outermost layer of the server; nothing behind it is reached without the cookie."""

    def __init__(self, app: ASGIApp, token: str, port: int) -> None:
        if not token:
            raise ValueError("a desk without a token does not exist")
        self.app, self.token, self.port = app, token, port
        self.hosts = (f"127.0.0.1:{port}", f"localhost:{port}")
        self.cookie = f"desk-{port}"  # browsers do not tell the ports of a machine apart

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or say why it is not answered."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        refusal = self._refusal(scope)
        if refusal is not None:
            await refusal(scope, receive, _with_headers(send))
            return
        try:
            await self.app(scope, _capped(receive), _with_headers(send))
        except TooLarge:
            await _said(413, "this is larger than the desk takes")(scope, receive, _with_headers(send))

    def _refusal(self, scope: Scope) -> Response | None:
        """Return the answer to a request that goes no further, or None."""
        headers = Headers(scope=scope)
        host, origin = headers.get("host", ""), headers.get("origin")
        if host not in self.hosts:
            return _said(421, "this desk answers only to its own address")
        if origin is not None and origin != f"http://{host}":
            return _said(403, "this request comes from another page")
        if scope["method"] not in SAFE_METHODS and origin is None:
            return _said(403, "this request does not say which page it comes from")
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > LARGEST_REQUEST:
            return _said(413, "this is larger than the desk takes")
        if self._shown_token(scope):
            welcome = RedirectResponse("/", status_code=303)
            welcome.set_cookie(self.cookie, self.token, httponly=True, samesite="strict", path="/")
            return welcome
        if not self._has_cookie(headers):
            return _said(403, "open the desk with the address that it printed when it started")
        return None

    def _shown_token(self, scope: Scope) -> bool:
        """Whether this is the first address, with the right token in it."""
        shown = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        return scope["method"] == "GET" and scope["path"] == "/" and self._is_token(shown)

    def _has_cookie(self, headers: Headers) -> bool:
        try:
            found = SimpleCookie(headers.get("cookie", "")).get(self.cookie)
        except CookieError:
            return False
        return found is not None and self._is_token(found.value)

    def _is_token(self, text: str) -> bool:
        return hmac.compare_digest(text.encode("utf-8", "replace"), self.token.encode())


def _said(status: int, words: str) -> Response:
    return PlainTextResponse(words + "\n", status_code=status)


def _capped(receive: Receive) -> Receive:
    """Return a `receive` that counts what comes, for requests that do not state their length."""
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > LARGEST_REQUEST:
            raise TooLarge
        return message

    return counted


def _with_headers(send: Send) -> Send:
    """Return a `send` that puts the policy on every answer that has none of its own."""

    async def guarded(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            headers.setdefault("content-security-policy", POLICY)
            for name, value in _HEADERS.items():
                headers[name] = value
        await send(message)

    return guarded
