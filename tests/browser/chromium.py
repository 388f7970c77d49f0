"""Headless Chromium, and what can be asked of a page in it."""

import base64
import re

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

# Millimetres of paper and of the margins that the report's style asks for.
PAPERS = {"A4": (210, 297), "letter": (215.9, 279.4)}
MARGIN_MM = 14
PIXELS_PER_MM = 96 / 25.4

# Share of a picture's pixels that are not near white, drawn by itself.
INK = """
const [svg, done] = arguments;
const image = new Image();
const box = svg.getBoundingClientRect();
const copy = svg.cloneNode(true);
copy.setAttribute('width', box.width);
copy.setAttribute('height', box.height);
image.onload = () => {
  const canvas = document.createElement('canvas');
  canvas.width = Math.ceil(box.width);
  canvas.height = Math.ceil(box.height);
  const context = canvas.getContext('2d');
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(image, 0, 0, box.width, box.height);
  const pixels = context.getImageData(0, 0, canvas.width, canvas.height).data;
  let inked = 0;
  for (let i = 0; i < pixels.length; i += 4)
    if (Math.min(pixels[i], pixels[i + 1], pixels[i + 2]) < 200) ++inked;
  done(inked / (pixels.length / 4));
};
image.onerror = () => done(null);
image.src = 'data:image/svg+xml;charset=utf-8,' + encodeURIComponent(new XMLSerializer().serializeToString(copy));
"""

# Texts whose contrast with the white page is below 4.5 to 1 (WCAG 2.2, success criterion 1.4.3).
PALE_TEXTS = """
const channel = value => (value /= 255) <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
const pale = [];
const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (texts.nextNode()) {
  const element = texts.currentNode.parentElement;
  if (!texts.currentNode.data.trim() || ['STYLE', 'title', 'desc'].includes(element.tagName)) continue;
  const style = getComputedStyle(element);
  const colour = element.ownerSVGElement ? style.fill : style.color;
  const [red, green, blue] = colour.match(/[0-9.]+/g).map(Number);
  const luminance = 0.2126 * channel(red) + 0.7152 * channel(green) + 0.0722 * channel(blue);
  if (1.05 / (luminance + 0.05) < 4.5) pale.push(colour + ' ' + texts.currentNode.data.trim().slice(0, 40));
}
return pale;
"""

# Smallest text of the pictures shown, in CSS pixels as it appears.
SMALLEST_DRAWN_TEXT = """
let least = Infinity;
for (const text of document.querySelectorAll('svg text')) {
  const svg = text.ownerSVGElement;
  const box = svg.getBoundingClientRect();
  if (!box.width || !text.textContent.trim()) continue;
  least = Math.min(least, parseFloat(getComputedStyle(text).fontSize) * box.width / svg.viewBox.baseVal.width);
}
return least;
"""


class Browser:
    def __init__(self):
        options = webdriver.ChromeOptions()
        options.binary_location = "/usr/bin/chromium"
        for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
                         "--disable-background-networking", "--disable-component-update", "--no-first-run"):
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)

    def close(self):
        self.driver.quit()

    def open(self, path, width, height=900):
        self.resize(width, height)
        self.driver.get(path.as_uri())

    def resize(self, width, height=900):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                    {"width": round(width), "height": round(height), "deviceScaleFactor": 1,
                                     "mobile": False})

    def use_medium(self, medium):
        """"print", or "" for the screen."""
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": medium})

    def ask(self, script, *arguments):
        return self.driver.execute_script(script, *arguments)

    def messages(self):
        """What the console was told since last asked."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def pictures(self, selector):
        """Pictures that take room on the page as it is now."""
        return self.ask("return [...document.querySelectorAll(arguments[0])].filter(svg => "
                        "svg.getBoundingClientRect().width > 0)", selector)

    def ink(self, picture):
        return self.driver.execute_async_script(INK, picture)

    def pdf(self, paper):
        width, height = PAPERS[paper]
        printed = self.driver.execute_cdp_cmd("Page.printToPDF", {"paperWidth": width / 25.4, "paperHeight": height / 25.4,
                                                                  "printBackground": False})
        return base64.b64decode(printed["data"])


def pages_of(pdf):
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))
