// Entries of a fitting: what was tapped or typed goes out through the outbox, its answer comes in.

(() => {
  "use strict";

  const one = (selector, within = document) => within.querySelector(selector);

  // Two sends of one entry carry the same key and are kept once; every new entry gets its own.
  // crypto.randomUUID is missing where the page did not come from this machine itself.
  function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  // Every entry goes through the outbox: kept in this browser first, then sent

  const TWICE_MS = 400; // two touches on one button closer than this are one
  let sentAt = -TWICE_MS;

  function again(form, event) {
    const before = sentAt;
    sentAt = event.timeStamp;
    return form.id === "numbers-form" && isEmpty(form) && event.timeStamp - before < TWICE_MS;
  }

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("[data-entry]")) return;
    event.preventDefault();
    if (again(form, event)) return;
    const data = new FormData(form, event.submitter);
    for (const each of form.querySelectorAll("[data-quick]")) data.delete(each.name);
    for (const field of one(form.dataset.with ?? "nothing")?.children ?? []) {
      data.set(field.name, field.value);
    }
    if (data.has("entry_key")) data.set("entry_key", newKey());
    const entry = {
      address: form.getAttribute("action"),
      body: new URLSearchParams(data).toString(),
      fitting: form.dataset.fitting,
      kind: form.dataset.entry, // the table it goes to; none for what takes something back
      said: form.dataset.said,
      typed: typedIn(form, data, event.submitter),
      page: location.pathname + location.search,
    };
    const replaced = +form.dataset.replaces || 0;
    delete form.dataset.replaces;
    empty(form);
    if (form.id === "tap-form") taps.clear();
    sending.add(entry, form, replaced);
  });

  // What was entered, in words, as long as the records cannot say it

  function typedIn(form, data, submitter) {
    const words = [...form.elements].map((field) => wordsOf(field, data)).filter(Boolean);
    return (submitter?.name ? [submitter.textContent.trim(), ...words] : words).join(", ");
  }

  function wordsOf(field, data) {
    if (!field.name || !field.value || field.type === "submit") return "";
    if (field.dataset.plus) return taps.words(field);
    if (field.type === "hidden") return "";
    if (field.type === "radio") {
      const figure = data.get(field.name.replace(/-side$/, ""));
      return field.checked && figure ? field.labels[0].textContent.trim() : "";
    }
    const value = field.selectedOptions?.[0]?.textContent.trim() ?? field.value;
    const unit = field.parentElement.querySelector(".unit")?.textContent.trim() ?? "";
    return `${field.labels[0]?.textContent.trim() ?? ""} ${value} ${unit}`.trim();
  }

  // What was sent is out of the form at once, so that it is not sent twice, and back with its
  // message when something is wrong with it

  const TEXTS = "input:not([type=hidden], [type=radio]), textarea, select:not([name=hand])";

  function empty(form) {
    for (const field of form.querySelectorAll(TEXTS)) {
      if (field.tagName === "SELECT") field.selectedIndex = 0;
      else field.value = "";
    }
    for (const field of form.querySelectorAll("[type=radio]")) {
      field.checked = field === form.elements[field.name][0];
    }
    form.dispatchEvent(new Event("filled", { bubbles: true }));
  }

  function isEmpty(form) {
    return [...form.querySelectorAll(TEXTS)].every((field) => (
      field.tagName === "SELECT" ? field.selectedIndex < 1 : !field.value
    ));
  }

  function refill(form, body) {
    for (const [name, value] of new URLSearchParams(body)) {
      for (const field of form.querySelectorAll(`[name="${CSS.escape(name)}"]`)) {
        if (field.type === "radio") field.checked = field.value === value;
        else field.value = value;
      }
    }
    form.dispatchEvent(new Event("filled", { bubbles: true }));
  }

  document.addEventListener("answered", (event) => {
    const { form, entry, answer, verdict } = event.detail;
    if (!form?.isConnected) return;
    const wrong = verdict === "refused" && answer.status === 422 && !entry.delayed && isEmpty(form);
    if (form.dataset.whole) answeredWhole(event, { form, wrong });
    else if (wrong && form.dataset.wrong) {
      show(answer.text, form, { target: one(form.dataset.wrong), swap: "innerHTML" });
      event.preventDefault();
    } else show(answer.text, form, { target: form, swap: "none" });
  });

  function show(text, sourceElement, where) {
    htmx.swap({ text, sourceElement, ...where });
  }

  // A page without pieces is drawn anew; what is wrong with its form the program shows itself.
  function answeredWhole(event, { form, wrong }) {
    if (event.detail.verdict === "kept") location.assign(form.dataset.whole);
    else if (wrong) {
      refill(form, event.detail.entry.body);
      form.submit();
      event.preventDefault();
    }
  }

  // Refused figures come back into the form they were typed in.

  async function putRight() {
    const number = +(location.hash.match(/^#put-right-(\d+)$/)?.[1] ?? 0);
    const form = one("#numbers-form");
    const entry = number && form && (await outbox.all()).find((each) => each.number === number);
    if (!entry) return;
    const sent = new URLSearchParams(entry.body);
    for (const held of ["entry_key", ...HELD]) sent.delete(held);
    refill(form, sent);
    for (const folded of document.querySelectorAll("#by-number, #by-number details")) {
      folded.open = true;
    }
    form.dataset.replaces = number;
    one(TEXTS, form).focus();
  }

  addEventListener("hashchange", putRight);
  addEventListener("load", putRight);

  // What waits is drawn where it will stand, and stands where the last reading does

  const HELD = ["hand", "task", "from", "board", "laser", "look"];
  let waiting = [];

  document.addEventListener("outbox", (event) => {
    waiting = event.detail.entries.filter((entry) => entry.state === "waiting" && !entry.recalled);
    if (one("#glass")) showGhosts();
    catchUp();
  });

  function showGhosts() {
    for (const dot of document.querySelectorAll(".ghost:not(.held)")) dot.remove();
    // one that could not be sent holds up all behind it
    const kind = waiting.some((entry) => entry.delayed) ? "ghost ghost-waiting" : "ghost";
    for (const entry of waiting) {
      const sent = new URLSearchParams(entry.body);
      if (!isInHand(entry, sent)) continue;
      for (const glass of document.querySelectorAll("#tap-form .glass")) {
        if (sent.get(glass.dataset.x)) taps.ghost(glass, readingIn(glass, sent), kind);
      }
    }
  }

  function isInHand(entry, sent) {
    const tap = one("#tap-form");
    if (entry.address !== tap.getAttribute("action") || sent.get("via") !== "tap") return false;
    return HELD.every((name) => one(`#state [name=${name}]`).value === sent.get(name));
  }

  function readingIn(glass, sent) {
    return { x: +sent.get(glass.dataset.x), y: +(sent.get(glass.dataset.y) ?? 0) };
  }

  // An answer and the stream may cross: what shows an older state than the page does is left out

  const LIVE = new Set(["last", "counts", "word", "over", "says", "verdict", "news"]);

  const SURFACES = new Set(["surface", "face"]);
  const REVISED = new Set([...SURFACES, "surface-table", "face-table"]);

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
    const [coming, shown] = [one("[data-revision]", task.fragment),
      one("[data-revision]", targetOf(task))];
    return coming && shown && +coming.dataset.revision < +shown.dataset.revision;
  }

  document.addEventListener("htmx:before:swap", (event) => {
    const tasks = event.detail.tasks;
    const coming = tasks.map((task) => one("[data-news]", task.fragment)).find(Boolean);
    const shown = one("#news [data-news]");
    const stale = coming && shown && older(coming.dataset.news, shown.dataset.news);
    const kept = tasks.filter((task) => {
      const id = targetOf(task)?.id;
      return !(stale && LIVE.has(id)) && !(REVISED.has(id) && isOlderSurface(task));
    });
    tasks.splice(0, tasks.length, ...kept);
  });

  // Readings that came in elsewhere: the surface draws itself anew. While an entry of this
  // browser is underway its own answer brings the surface.

  let newest = 0;

  function catchUp() {
    const surface = one("[data-surface]");
    if (waiting.length === 0 && surface && +surface.dataset.revision < newest) {
      for (const id of SURFACES) if (one(`#${id}`)) htmx.trigger(`#${id}`, "refresh");
    }
  }

  document.addEventListener("readings", (event) => {
    newest = +event.detail.data;
    catchUp();
  });
})();
