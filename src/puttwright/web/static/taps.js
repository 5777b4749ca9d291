// Drawn surfaces to tap on: a tap or a key on one becomes figures in the fields of its form.
// The surface says where zero is and what its width and height stand for (data-*), the glass over
// it which fields it fills, and whether they are held until the rest of the reading is tapped.

const taps = (() => {
  "use strict";

  const MOVED_PX = 12; // more than this is a scroll, not a tap
  const TWICE_MS = 400; // two taps on one place closer than this are one
  const TWICE_PX = 24;

  const form = () => document.querySelector("#tap-form");
  const field = (name) => form()?.elements[name];
  const fieldsOf = (glass) => [glass.dataset.x, glass.dataset.y].filter(Boolean).map(field);

  function surfaceUnder(glass) {
    const drawn = [...glass.parentElement.querySelectorAll("[data-surface]")];
    return drawn.find((surface) => surface.getClientRects().length > 0);
  }

  function geometry(glass) {
    const surface = surfaceUnder(glass);
    if (!surface) return null;
    const data = surface.dataset;
    return {
      box: surface.querySelector("svg").getBoundingClientRect(),
      zeroX: +data.zeroX, zeroY: +data.zeroY, spanX: +data.spanX, spanY: +data.spanY,
      step: +data.step,
    };
  }

  function readingAt(x, y, on) {
    return {
      x: ((x - on.box.left) / on.box.width - on.zeroX) * on.spanX,
      y: -((y - on.box.top) / on.box.height - on.zeroY) * on.spanY,
    };
  }

  function putAt(element, reading, on) {
    element.style.left = `${(reading.x / on.spanX + on.zeroX) * 100}%`;
    element.style.top = `${(-reading.y / on.spanY + on.zeroY) * 100}%`;
  }

  function ghost(glass, reading, kind = "ghost") {
    const on = geometry(glass);
    if (!on) return;
    const dot = document.createElement("div");
    dot.className = kind;
    putAt(dot, reading, on);
    glass.append(dot);
  }

  function fill(glass, reading, on) {
    const digits = on.step < 1 ? 3 : 1;
    const values = [reading.x, reading.y];
    fieldsOf(glass).forEach((each, place) => { each.value = values[place].toFixed(digits); });
    say(glass);
  }

  // What was tapped in words: for who cannot see the drawing.
  function say(glass) {
    const words = fieldsOf(glass).filter((each) => each.value !== "").map(wordsOf);
    document.querySelector("#tap-says").textContent = words.join(", ");
  }

  function wordsOf(each) {
    const { plus, minus, digits, times } = each.dataset; // times: from the record's unit to ours
    const size = Math.abs(+each.value * times).toFixed(+digits);
    return `${size}\u00a0${+each.value < 0 ? minus : plus}`; // the unit stays with its figure
  }

  // What is held is seen and can be tapped anew; the rest is sent at once.
  function record(glass, reading, on) {
    if ("holds" in glass.dataset) {
      for (const dot of glass.querySelectorAll(".held")) dot.remove();
      ghost(glass, reading, "ghost held");
      fill(glass, reading, on);
      return;
    }
    ghost(glass, reading);
    fill(glass, reading, on);
    form().requestSubmit();
  }

  function clear() {
    for (const each of document.querySelectorAll("#tap-form [data-tapped]")) each.value = "";
    for (const dot of document.querySelectorAll(".held")) dot.remove();
  }

  // Taps

  let pressed = null;
  let lastTap = null;

  function again(event) {
    return lastTap !== null && event.timeStamp - lastTap.timeStamp < TWICE_MS
      && Math.hypot(event.clientX - lastTap.clientX, event.clientY - lastTap.clientY) < TWICE_PX;
  }

  function glassAt(event) {
    return event.target.closest?.("#tap-form .glass");
  }

  document.addEventListener("pointerdown", (event) => {
    pressed = glassAt(event) && event.isPrimary ? event : null;
  });
  document.addEventListener("pointercancel", () => { pressed = null; });
  document.addEventListener("pointerup", (event) => {
    const from = pressed;
    pressed = null;
    const glass = glassAt(event);
    if (!from || !glass || event.button !== 0) return;
    const moved = Math.hypot(event.clientX - from.clientX, event.clientY - from.clientY);
    const on = geometry(glass);
    if (moved > MOVED_PX || !on || again(event)) return;
    lastTap = event;
    record(glass, readingAt(event.clientX, event.clientY, on), on);
  });

  // Keys: arrows move the cross, with Shift ten steps; Enter or Space records

  const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  let cross = { x: 0, y: 0 };

  function showCross(glass, on) {
    const element = glass.querySelector(".cross");
    element.hidden = false;
    putAt(element, cross, on);
    const before = fieldsOf(glass).map((each) => each.value);
    fill(glass, cross, on);
    fieldsOf(glass).forEach((each, place) => { each.value = before[place]; });
  }

  document.addEventListener("keydown", (event) => {
    const glass = glassAt(event);
    const on = glass && geometry(glass);
    if (!on || event.ctrlKey || event.metaKey || event.altKey) return;
    const arrow = ARROWS[event.key];
    if (arrow) {
      const steps = event.shiftKey ? 10 : 1;
      cross.x += arrow[0] * Math.sign(on.spanX) * steps * on.step;
      if (glass.dataset.y) cross.y += arrow[1] * steps * on.step;
      showCross(glass, on);
      event.preventDefault();
    } else if (event.key === "Enter" || event.key === " ") {
      if (!event.repeat) record(glass, cross, on);
      if ("holds" in glass.dataset) document.querySelector("#glass").focus();
      event.preventDefault();
    }
  });
  document.addEventListener("focusin", (event) => {
    const glass = glassAt(event);
    const on = glass && geometry(glass);
    if (on && event.target.matches(":focus-visible")) {
      cross = { x: 0, y: 0 };
      showCross(glass, on);
    }
  });
  document.addEventListener("focusout", (event) => {
    const glass = glassAt(event);
    if (glass) glass.querySelector(".cross").hidden = true;
  });

  return { clear, ghost, words: wordsOf };
})();
