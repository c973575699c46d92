"""The short promises in WebKitGTK, the nearest thing to an iPhone's engine that runs here.

Needs a screen (`xvfb-run`). The clock runs: time is only put forward, so that a minute
needn't be waited for. Left out: what an iPhone does differently around the engine, such as its
home screen, its lock screen and its ring switch.
"""

import functools
import http.server
import json
import os
import pathlib
import tempfile
import threading
import time
import traceback

from selenium import webdriver
from selenium.common.exceptions import WebDriverException
from selenium.webdriver.common.by import By
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

DIST = pathlib.Path(__file__).resolve().parents[3] / "dist"
DRIVER = os.environ.get("OVENTIDE_WEBKIT_DRIVER", "/usr/bin/WebKitWebDriver")
BROWSER = next(pathlib.Path("/usr/lib").glob("*/webkit2gtk-4.1/MiniBrowser"), None)
PATIENCE_S = 20
MINUTE_MS = 60_000
# Two presses within 400 ms are one press to the app.
BETWEEN_PRESSES_MS = 1000


class Quiet(http.server.SimpleHTTPRequestHandler):
    """A static host that says nothing."""

    extensions_map = {".wasm": "application/wasm", ".js": "text/javascript",
                      ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8",
                      ".webmanifest": "application/manifest+json", ".svg": "image/svg+xml",
                      ".png": "image/png", "": "application/octet-stream"}

    def log_message(self, *_):
        pass


class Server:
    """Serves the build on loopback until it is killed."""

    def __init__(self):
        handler = functools.partial(Quiet, directory=str(DIST))
        self._server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        self._server.daemon_threads = True
        threading.Thread(target=self._server.serve_forever, daemon=True).start()
        self.url = f"http://localhost:{self._server.server_port}/"

    def kill(self):
        self._server.shutdown()
        self._server.server_close()


class Phone:
    """The app in one window, worked by a finger."""

    # Leptos and the app read the clock anew each time, so the replaced one counts at once.
    _CLOCK = """
        if (!window.putForward) {
            const real = Date.now.bind(Date);
            const ahead = () => Number(sessionStorage.getItem("ahead") ?? 0);
            Date.now = () => real() + ahead();
            // Time that passed, not a clock that was set: the other clock goes along.
            const run = performance.now.bind(performance);
            performance.now = () => run() + ahead();
            window.putForward = (ms) => sessionStorage.setItem("ahead", String(ahead() + ms));
        }"""
    # By what it is called: its label, or else the text it shows.
    _NAMED = """
        const name = (found) => found.getAttribute("aria-label") ?? found.innerText;
        return [...document.querySelectorAll("button, a, [role=button]")].find(
            (found) => name(found).trim() === arguments[0] && found.offsetParent !== null)"""

    def __init__(self):
        options = Options()
        options.binary_location = str(BROWSER)
        options.add_argument("--automation")
        self.driver = webdriver.WebKitGTK(options=options, service=Service(DRIVER))
        self.driver.set_window_size(390, 844)
        self.driver.set_script_timeout(PATIENCE_S)

    def open(self, url):
        self.driver.get(url)
        self._put_clock()

    def reload(self):
        self.driver.refresh()
        self._put_clock()

    def _put_clock(self):
        self.driver.execute_script(self._CLOCK)

    def put_forward(self, ms):
        self.driver.execute_script("window.putForward(arguments[0])", ms)

    def within(self, what, look):
        """Waits until `look` finds something, and gives it."""
        end = time.monotonic() + PATIENCE_S
        while True:
            try:
                seen = look()
            except WebDriverException:
                # The page is drawing; what was found has already gone.
                seen = None
            if seen:
                return seen
            assert time.monotonic() < end, f"{what} did not come within {PATIENCE_S} s"
            time.sleep(0.05)

    def find(self, selector):
        found = self.driver.find_elements(By.CSS_SELECTOR, selector)
        return found[0] if found else None

    def wait_for(self, selector):
        return self.within(selector, lambda: self.find(selector))

    def shows(self, selector, text):
        script = """return [...document.querySelectorAll(arguments[0])].some(
            (found) => found.textContent.includes(arguments[1]))"""
        self.within(f"“{text}” in {selector}",
                    lambda: self.driver.execute_script(script, selector, text))

    def text_of(self, selector):
        script = "return document.querySelector(arguments[0]).textContent.trim()"
        return self.driver.execute_script(script, selector)

    def press(self, name):
        self._press(name, lambda: self.driver.execute_script(self._NAMED, name))

    def press_at(self, selector):
        self._press(selector, lambda: self.find(selector))

    def _press(self, what, look):
        self.put_forward(BETWEEN_PRESSES_MS)

        def tapped():
            found = look()
            if not found:
                return False
            # A fixed bar at the bottom can cover what was only just scrolled into view.
            self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", found)
            found.click()
            return True

        self.within(what, tapped)

    def go_to(self, address, heading):
        self.driver.execute_script("location.hash = arguments[0]", address)
        self.shows("h1", heading)


def starts(phone, server):
    phone.open(server.url)
    phone.shows("h1", "Today")
    phone.shows("a.card h2", "Plum")


def starts_without_network(phone, server):
    ready = phone.driver.execute_async_script(
        "const done = arguments[0]; navigator.serviceWorker.ready.then(() => done(true))")
    assert ready
    server.kill()
    phone.reload()
    phone.shows("h1", "Today")
    phone.shows("a.card h2", "Plum")
    controlled = phone.driver.execute_script("return navigator.serviceWorker.controller !== null")
    assert controlled, "no service worker answers for the page"


def formula_starts_a_bake(phone, _):
    phone.press_at("a.card[href*=plum]")
    phone.press("Start this bake")
    phone.shows(".asked-instruction", "Weigh everything")


FIRST_MARK = ".marks .mark"
MARKED = FIRST_MARK + "[aria-pressed=true]"


def event_survives_reload(phone, _):
    assert phone.find(MARKED) is None
    phone.press_at(FIRST_MARK)
    phone.wait_for(MARKED)
    phone.reload()
    phone.wait_for(MARKED)
    assert "Weigh everything" in phone.text_of(".asked-instruction")


def timer_comes_due(phone, _):
    phone.press("Timer")
    phone.wait_for("#timer-name").send_keys("Rack")
    for _ in range(9):
        phone.press("Less: Minutes")
    phone.press("Set the timer")
    phone.shows(".runs-name", "Rack")
    assert phone.find("dialog.alarm[open]") is None
    phone.put_forward(MINUTE_MS)
    phone.wait_for("dialog.alarm[open]")
    assert phone.text_of("#alarm-title") == "Rack"
    phone.press("Stop the alarm")
    phone.within("silence", lambda: phone.find("dialog.alarm[open]") is None)


# An automated window has no folder for downloads and no window to pick files with, so the file is
# read where the page hands it to the browser, and put into the field that the window would fill.
CATCH_DOWNLOAD = """
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { blob.text().then((text) => { window.written = text });
                                      return make(blob) };
    HTMLAnchorElement.prototype.click = function noDownload() {};
    HTMLInputElement.prototype.click = function noWindow() {};"""


def archive_out_and_in(phone, _):
    phone.go_to("#/kitchen", "Kitchen")
    phone.driver.execute_script(CATCH_DOWNLOAD)
    phone.press("Write an archive")
    archive = phone.within("the archive",
                           lambda: phone.driver.execute_script("return window.written"))
    assert len(json.loads(archive)["contents"]["bakes"]) == 1

    phone.press("Erase everything")
    phone.press("Go on")
    phone.press("Erase it all now")
    phone.go_to("#/bench", "Nothing is baking")

    phone.go_to("#/kitchen", "Kitchen")
    phone.press("Restore an archive")
    phone.press("Choose the file")
    with tempfile.NamedTemporaryFile("w", suffix=".json", encoding="utf-8") as file:
        file.write(archive)
        file.flush()
        phone.wait_for("input[type=file]").send_keys(file.name)
        phone.shows("main", "Everything in the archive is here now.")
    phone.go_to("#/bench", "Weigh everything")
    phone.wait_for(MARKED)


PROMISES = [
    ("starts", starts),
    ("starts again with the server dead", starts_without_network),
    ("a formula starts a bake", formula_starts_a_bake),
    ("an event survives a reload", event_survives_reload),
    ("a timer comes due", timer_comes_due),
    ("an archive goes out and comes back in", archive_out_and_in),
]


def main():
    failed = 0
    server = Server()
    phone = Phone()
    for name, keep in PROMISES:
        started = time.monotonic()
        try:
            keep(phone, server)
            word = "ok    "
        except Exception:  # One broken promise doesn't keep the others from being tried.
            traceback.print_exc()
            failed += 1
            word = "FAILED"
        print(f"  {word}  {name} ({time.monotonic() - started:.1f} s)", flush=True)
    phone.driver.quit()
    print(f"{len(PROMISES) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
