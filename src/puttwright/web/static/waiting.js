// What waits for the connection, and what was refused: how many, each with its state, on every page.

(() => {
  "use strict";

  const SHOWN_AFTER_MS = 1200; // an entry that is answered sooner never shows up here
  const strip = document.getElementById("waiting");
  const kept = document.documentElement.dataset.kept;
  const words = strip.dataset;
  let stale = Boolean(kept);
  let timer = 0;

  const one = (selector, within = strip) => within.querySelector(selector);

  function filled(text, fields) {
    return text.replace(/\{(\w+)\}/g, (_, name) => fields[name]);
  }

  function clock(time) {
    return new Date(time).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  }

  function counted(number, what) {
    if (number === 0) return "";
    return filled(number === 1 ? words[`${what}One`] : words[what], { number });
  }

  function headline(waiting, refused, turnedAway) {
    const told = [counted(waiting.length, turnedAway ? "shut" : "waiting"), counted(refused.length, "refused")];
    if (turnedAway) told.push(words.letIn);
    if (stale) told.push(filled(words.stale, { time: clock(kept) }));
    return told.filter(Boolean).join(" ");
  }

  function draw({ entries, connected, turnedAway }) {
    const old = Date.now() - SHOWN_AFTER_MS;
    const waiting = entries.filter((each) => each.state === "waiting");
    const refused = entries.filter((each) => each.state === "refused");
    const late = waiting.some((each) => each.delayed || each.at < old);
    clearTimeout(timer);
    if (waiting.length && !late) timer = setTimeout(() => draw({ entries, connected, turnedAway }), SHOWN_AFTER_MS);
    const shown = [...(late ? waiting : []), ...refused].sort((a, b) => a.number - b.number);
    one("[data-told]").textContent = headline(late ? waiting : [], refused, late && turnedAway);
    one("[data-list]").replaceChildren(...shown.map(row));
    one("[data-try]").hidden = connected;
    strip.hidden = !shown.length && !stale;
    strip.classList.toggle("waiting-refused", refused.length > 0);
    document.body.classList.toggle("with-waiting", !strip.hidden);
    drawLast(late ? waiting.filter((each) => !each.recalled) : []);
  }

  function row(entry) {
    const drawn = one("#waiting-entry").content.cloneNode(true).firstElementChild;
    one("[data-said]", drawn).textContent = entry.said;
    one("[data-typed]", drawn).textContent = entry.typed;
    one("[data-state]", drawn).textContent = stateOf(entry);
    const refused = entry.state === "refused";
    drawn.classList.toggle("refused", refused);
    const right = one("[data-right]", drawn);
    right.hidden = !(refused && new URLSearchParams(entry.body).get("via") === "numbers");
    right.href = `${entry.page}#put-right-${entry.number}`;
    const again = one("[data-again]", drawn);
    again.hidden = !refused;
    again.addEventListener("click", () => sending.again(entry.number));
    const back = one("[data-back]", drawn);
    back.hidden = Boolean(entry.recalled);
    back.textContent = refused ? words.letGo : words.takeBack;
    back.addEventListener("click", () => sending.recall(entry.number));
    return drawn;
  }

  function stateOf(entry) {
    const time = clock(entry.at);
    const key = entry.recalled ? "stateRecalled" : entry.state === "refused" ? "stateRefused" : "stateWaiting";
    return [filled(words[key], { time }), entry.why].filter(Boolean).join(" ");
  }

  // On the green the newest one stands in the place of the last reading, with its undo.

  function drawLast(waiting) {
    const place = document.getElementById("last-waiting");
    if (!place) return;
    const newest = waiting.filter((each) => each.fitting === place.dataset.fitting).at(-1);
    place.hidden = !newest;
    document.getElementById("last").hidden = Boolean(newest);
    if (!newest) return;
    one(".last-words", place).textContent = [newest.said, newest.typed].filter(Boolean).join(": ");
    one("button", place).onclick = () => sending.recall(newest.number);
  }

  document.addEventListener("outbox", (event) => draw(event.detail));
  document.addEventListener("htmx:sse:after:connection", () => {
    stale = false;
    sending.sendAll();
  });
  one("[data-try]").addEventListener("click", () => sending.sendAll());
  sending.sendAll();

  // The pages of the fitting that is open are kept for the time without a connection.

  async function keepPages() {
    if (!("serviceWorker" in navigator) || stale) return;
    await navigator.serviceWorker.register("/keep.js");
    const { active } = await navigator.serviceWorker.ready;
    const loaded = performance.getEntriesByType("resource").map((each) => each.name);
    const assets = loaded.filter((each) => /\/static\/|[?&]v=/.test(each));
    active.postMessage({ page: location.href, assets });
  }

  addEventListener("load", () => { keepPages().catch(() => {}); });

  // Where one lands without a connection: the way to the fitting as it was seen last.
  const way = document.getElementById("kept-way");
  const fitting = document.getElementById("last-waiting")?.dataset.fitting;
  if (fitting) localStorage.setItem("fitting", location.pathname + location.search);
  if (way && localStorage.getItem("fitting")) {
    way.href = localStorage.getItem("fitting");
    way.hidden = false;
  }
})();
