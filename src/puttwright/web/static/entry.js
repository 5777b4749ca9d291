// Entries on the green: a tap or a key on a drawn surface becomes a reading.
// The surface says where zero is and what its width and height stand for (data-*).

(() => {
  "use strict";

  const MOVED_PX = 12; // more than this is a scroll, not a tap
  const TWICE_MS = 400; // two taps on one place closer than this are one
  const TWICE_PX = 24;
  const one = (selector, within = document) => within.querySelector(selector);

  // Two sends of one entry carry the same key and are kept once; every new entry gets its own.
  // crypto.randomUUID is missing where the page did not come from this machine itself.
  function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  function shownSurface() {
    const shown = [...document.querySelectorAll("[data-surface]")];
    return shown.find((surface) => surface.getClientRects().length > 0);
  }

  function geometry(surface) {
    const data = surface.dataset;
    return {
      box: one("svg", surface).getBoundingClientRect(),
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

  function placeOf(reading, on) {
    return {
      left: (reading.x / on.spanX + on.zeroX) * 100,
      top: (-reading.y / on.spanY + on.zeroY) * 100,
    };
  }

  function putAt(element, reading, on) {
    const place = placeOf(reading, on);
    element.style.left = `${place.left}%`;
    element.style.top = `${place.top}%`;
  }

  // What is typed may be sent by hand; what is tapped is sent at once.
  function send(reading, digits) {
    const form = one("#tap-form");
    const fields = [["[data-tap-x]", reading.x], ["[data-tap-y]", reading.y]];
    for (const [selector, value] of fields) {
      const field = one(selector, form);
      if (field) field.value = value.toFixed(digits);
    }
    form.requestSubmit();
    for (const [selector] of fields) {
      const field = one(selector, form);
      if (field) field.value = "";
    }
  }

  function ghost(reading, on) {
    const dot = document.createElement("div");
    dot.className = "ghost";
    putAt(dot, reading, on);
    one("#glass").append(dot);
  }

  function record(reading, on) {
    ghost(reading, on);
    send(reading, on.step < 1 ? 3 : 1);
  }

  // Taps

  let pressed = null;
  let lastTap = null;

  function again(event) {
    return lastTap !== null && event.timeStamp - lastTap.timeStamp < TWICE_MS
      && Math.hypot(event.clientX - lastTap.clientX, event.clientY - lastTap.clientY) < TWICE_PX;
  }

  function onGlass(event) {
    return event.target.closest?.("#glass");
  }

  document.addEventListener("pointerdown", (event) => {
    pressed = onGlass(event) && event.isPrimary ? event : null;
  });
  document.addEventListener("pointercancel", () => { pressed = null; });
  document.addEventListener("pointerup", (event) => {
    const from = pressed;
    pressed = null;
    if (!from || !onGlass(event) || event.button !== 0) return;
    const moved = Math.hypot(event.clientX - from.clientX, event.clientY - from.clientY);
    const surface = shownSurface();
    if (moved > MOVED_PX || !surface || again(event)) return;
    lastTap = event;
    const on = geometry(surface);
    record(readingAt(event.clientX, event.clientY, on), on);
  });

  // Keys: arrows move the cross, with Shift ten steps; Enter or Space records

  const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  let cross = { x: 0, y: 0 };

  function showCross(on) {
    const element = one("#cross");
    element.hidden = false;
    putAt(element, cross, on);
    const words = on.step < 1
      ? `${cross.y.toFixed(2)} m, ${cross.x.toFixed(2)} m`
      : `${cross.x.toFixed(0)} mm`;
    one("#tap-says").textContent = words;
  }

  document.addEventListener("keydown", (event) => {
    const glass = onGlass(event);
    const surface = shownSurface();
    if (!glass || !surface || event.ctrlKey || event.metaKey || event.altKey) return;
    const on = geometry(surface);
    const arrow = ARROWS[event.key];
    if (arrow) {
      const steps = event.shiftKey ? 10 : 1;
      cross.x += arrow[0] * steps * on.step;
      if (glass.dataset.task === "putts") cross.y += arrow[1] * steps * on.step;
      showCross(on);
      event.preventDefault();
    } else if (event.key === "Enter" || event.key === " ") {
      if (!event.repeat) record(cross, on);
      event.preventDefault();
    }
  });
  document.addEventListener("focusin", (event) => {
    const surface = shownSurface();
    if (onGlass(event) && surface && event.target.matches(":focus-visible")) {
      cross = { x: 0, y: 0 };
      showCross(geometry(surface));
    }
  });
  document.addEventListener("focusout", (event) => {
    if (onGlass(event)) one("#cross").hidden = true;
  });

  // Sending: a fresh key for each entry, and a way to send again what got no answer

  let underway = 0;

  document.addEventListener("htmx:config:request", (event) => {
    const request = event.detail.ctx.request;
    const field = request.form && one("[data-entry-key]", request.form);
    if (!field || !request.body?.has?.("entry_key")) return;
    if (!event.detail.ctx.again) request.body.set("entry_key", newKey());
    event.detail.ctx.sent = new URLSearchParams(request.body).toString();
  });

  document.addEventListener("htmx:error", (event) => {
    const ctx = event.detail.ctx;
    if (ctx?.sent) offerAgain(ctx.sourceElement, ctx.sent);
  });

  document.addEventListener("htmx:before:request", (event) => {
    if (event.detail.ctx.sent) underway += 1;
  });
  document.addEventListener("htmx:finally:request", (event) => {
    for (const dot of document.querySelectorAll(".ghost")) dot.remove();
    if (!event.detail.ctx.sent) return;
    underway -= 1;
    catchUp();
  });

  function offerAgain(form, sent) {
    const bench = one("#bench");
    const line = document.createElement("p");
    line.className = "notice notice-wrong";
    line.setAttribute("role", "alert");
    line.append(`${bench.dataset.unsaved} `);
    const button = document.createElement("button");
    button.type = "button";
    button.className = "undo";
    button.textContent = bench.dataset.again;
    button.addEventListener("click", () => {
      line.remove();
      sendAgain(form, sent);
    });
    line.append(button);
    one("#notice").replaceChildren(line);
  }

  async function sendAgain(form, sent) {
    const address = form.getAttribute("action");
    try {
      const headers = {
        "Content-Type": "application/x-www-form-urlencoded", "HX-Request": "true",
      };
      const answer = await fetch(address, { method: "POST", headers, body: sent });
      const text = await answer.text();
      await htmx.swap({ text, sourceElement: form, target: form, swap: "none" });
    } catch {
      offerAgain(form, sent);
    }
  }

  // An answer and the stream may cross: what shows an older state than the page does is left out

  const LIVE = new Set(["last", "counts", "word", "verdict", "news"]);

  function order(news) {
    const [revision, decided, busy] = news.split(".").map(Number);
    return [revision, decided, 1 - busy];
  }

  function older(news, than) {
    const [ours, theirs] = [order(news), order(than)];
    const place = ours.findIndex((each, index) => each !== theirs[index]);
    return place >= 0 && ours[place] < theirs[place];
  }

  function targetOf(task) {
    return typeof task.target === "string" ? one(task.target) : task.target;
  }

  function isOlderSurface(task) {
    const [coming, shown] = [one("[data-surface]", task.fragment), one("[data-surface]")];
    return coming && shown && +coming.dataset.revision < +shown.dataset.revision;
  }

  document.addEventListener("htmx:before:swap", (event) => {
    const tasks = event.detail.tasks;
    const coming = tasks.map((task) => one("[data-news]", task.fragment)).find(Boolean);
    const shown = one("#news [data-news]");
    const stale = coming && shown && older(coming.dataset.news, shown.dataset.news);
    const kept = tasks.filter((task) => {
      const id = targetOf(task)?.id;
      return !(stale && LIVE.has(id)) && !(id === "surface" && isOlderSurface(task));
    });
    tasks.splice(0, tasks.length, ...kept);
  });

  // Readings that came in elsewhere: the surface draws itself anew. While an entry of this
  // page is underway its own answer brings the surface.

  let newest = 0;

  function catchUp() {
    const surface = one("[data-surface]");
    if (underway === 0 && surface && +surface.dataset.revision < newest) {
      htmx.trigger("#surface", "refresh");
    }
  }

  document.addEventListener("readings", (event) => {
    newest = +event.detail.data;
    catchUp();
  });
})();
