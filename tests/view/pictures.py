"""The picture of the README, made from an example: `python -m tests.view.pictures`."""

from __future__ import annotations

import io
import shutil
import threading
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from hts.generate import ROOT
from hts.view.server import Server
from hts.view.shelf import Shelf
from hts.view.site import Site

SPEC = Path(ROOT, "specs/broken/zone-gap.hts")
PICTURE = Path(ROOT, "grammar/pictures/view.png")
#: Colours of the picture: more only make it larger.
_COLOURS = 64


def main() -> None:
    """Writes the picture anew."""
    with Server(Site(Shelf(str(SPEC)))) as server, sync_playwright() as started:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = started.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"]
        )
        page = browser.new_page(viewport={"width": 1400, "height": 1180})
        page.goto(server.address)
        page.evaluate("document.querySelector('#text').scrollTop = 560")
        taken = Image.open(io.BytesIO(page.screenshot()))
        browser.close()
        server.shutdown()
    PICTURE.parent.mkdir(exist_ok=True)
    taken.convert("RGB").quantize(_COLOURS).save(PICTURE, optimize=True)
    print(f"{PICTURE.relative_to(ROOT)}: {PICTURE.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
