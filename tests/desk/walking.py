"""A walk through a page with the Tab key: what has the focus, one after another, and what is wrong with that."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

MOST_STEPS = 1500

FOCUSED = """() => {
  let one = document.activeElement;
  if (one === document.body || one === null) return null;
  window.walked ??= [];
  let number = window.walked.indexOf(one);
  if (number < 0) number = window.walked.push(one) - 1;
  const style = getComputedStyle(one), box = one.getBoundingClientRect();
  const label = one.closest("label"), around = [one, label].filter(Boolean).map((each) => getComputedStyle(each));
  const drawn = around.some((each) => (each.outlineStyle !== "none" && parseFloat(each.outlineWidth) >= 1)
    || each.boxShadow !== "none");
  const inside = (x, y) => {
    const hit = document.elementFromPoint(x, y);
    return hit !== null && (one.contains(hit) || hit.contains(one) || (label !== null && label.contains(hit)));
  };
  const left = Math.max(box.left, 0), right = Math.min(box.right, innerWidth);
  const top = Math.max(box.top, 0), bottom = Math.min(box.bottom, innerHeight);
  let seen = false;
  for (const across of [0.1, 0.5, 0.9]) for (const down of [0.1, 0.5, 0.9])
    seen ||= right > left && bottom > top && inside(left + (right - left) * across, top + (bottom - top) * down);
  const text = (one.innerText || one.getAttribute("aria-label") || one.name || one.id || "").trim().slice(0, 40);
  return {number, what: one.tagName.toLowerCase() + " " + text, drawn, seen, frame: one.tagName === "IFRAME"};
}"""
"""What has the focus: its number among those met so far, whether an outline is drawn, and whether it is in sight."""

LEFT_OUT = """() => {
  const wanted = "a[href], button, input, select, textarea, summary, [tabindex]";
  const usable = (one) => !one.disabled && one.tabIndex >= 0 && one.type !== "hidden" && one.checkVisibility()
    && getComputedStyle(one).visibility === "visible"
    && !(one.type === "radio" && window.walked.some((other) => other.type === "radio" && other.name === one.name));
  return [...document.querySelectorAll(wanted)].filter((one) => usable(one) && !window.walked.includes(one))
    .map((one) => one.tagName.toLowerCase() + " " + (one.innerText || one.name || one.id).trim().slice(0, 40));
}"""

OUT_OF_ORDER = """() => {
  const late = (one, other) => one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_PRECEDING;
  return window.walked.slice(1).filter((one, number) => late(window.walked[number], one))
    .map((one) => one.tagName.toLowerCase() + " " + (one.innerText || one.name || one.id).trim().slice(0, 40));
}"""


def faults_of_walk(page: Any) -> Iterator[str]:
    """Yield what is wrong with a page for somebody who has no mouse."""
    page.evaluate("() => { window.walked = []; }")
    steps = list(_steps(page))
    if len(steps) == MOST_STEPS:
        yield "no end"
        return
    if page.locator("nav").count() and not (steps and steps[0]["what"].startswith("a Skip to")):
        yield f"no way past the bar: first is {steps[0]['what'] if steps else 'nothing'}"
    drawn = {one["number"] for one in steps if one["drawn"]}  # a field of a date has several stops, one with a sign
    for one in steps:
        if one["number"] not in drawn and not one["frame"]:
            yield f"no sign of the focus on {one['what']}"
        if not one["seen"]:
            yield f"out of sight: {one['what']}"
    yield from (f"not reached: {one}" for one in page.evaluate(LEFT_OUT))
    yield from (f"before what stands above: {one}" for one in page.evaluate(OUT_OF_ORDER))


def _steps(page: Any) -> Iterator[dict[str, Any]]:
    """Press Tab and yield what has the focus, until it has left the page or come round."""
    for number in range(MOST_STEPS):
        page.keyboard.press("Tab")
        found = page.evaluate(FOCUSED)
        if found is None or (found["number"] == 0 and number > 0):
            return
        yield found
