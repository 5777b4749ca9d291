// Sends what the outbox holds: one after the other, in order, each until it is answered. An entry
// carries a key under which the records keep it once, however often it is sent.

window.sending = (() => {
  "use strict";

  const PATIENCE_MS = 8000; // a connection that died silently never answers
  const FIRST_PAUSE_MS = 1000;
  const LONGEST_PAUSE_MS = 8000;
  const NOT_NOW = new Set([401, 408, 425, 429, 502, 503, 504, 507]); // the same may go through later
  const TOLD = ".wrong, [role=alert]";

  const here = new Map(); // forms of this page whose entries are still out, by number
  const elsewhere = "BroadcastChannel" in window ? new BroadcastChannel("puttwright") : null;
  let busy = false;
  let wanted = false;
  let pause = FIRST_PAUSE_MS;
  let timer = 0;
  let connected = true;
  let turnedAway = false; // the session of this device has ended: what it holds waits to be let in

  function changed() {
    elsewhere?.postMessage("changed");
    tell();
  }

  async function tell() {
    const detail = { entries: await outbox.all(), connected, turnedAway, here: new Set(here.keys()) };
    document.dispatchEvent(new CustomEvent("outbox", { detail }));
  }

  async function post(address, body) {
    const headers = {
      "Content-Type": "application/x-www-form-urlencoded",
      "HX-Request": "true",
    };
    const signal = AbortSignal.timeout(PATIENCE_MS);
    const answer = await fetch(address, { method: "POST", headers, body, signal });
    return { status: answer.status, kept: answer.headers.get("Entry-Kept"),
             text: await answer.text() };
  }

  // Only the records themselves acknowledge; a page that a hotspot puts in between does not.
  function verdictOn(answer) {
    if (answer.kept) return "kept";
    if (answer.status < 400 || NOT_NOW.has(answer.status)) return "later";
    return "refused";
  }

  function sentenceIn(text) {
    // A page that is only read must not ask for styles: the policy would note each as refused.
    const bare = text.replaceAll("hx-partial", "div").replaceAll(/ style="[^"]*"/g, "");
    const page = new DOMParser().parseFromString(bare, "text/html");
    const told = [...page.querySelectorAll(TOLD)].map(fieldAndFault);
    return [...new Set(told)].join(" ") || page.body.textContent.trim().slice(0, 300);
  }

  function fieldAndFault(fault) {
    const label = fault.closest(".field")?.querySelector("label")?.textContent.trim();
    const words = fault.textContent.replace(/\s+/g, " ").trim();
    return label ? `${label}: ${words}` : words;
  }

  async function stillThere(number) {
    return (await outbox.all()).find((each) => each.number === number);
  }

  async function sendOne(entry) {
    let answer;
    try {
      answer = await post(entry.address, entry.body);
      if (answer.kept && (await stillThere(entry.number))?.recalled) {
        answer = await takeBack(entry, answer.kept);
      }
    } catch {
      return postpone(entry, "");
    }
    turnedAway = answer.status === 401;
    const verdict = verdictOn(answer);
    if (verdict === "later") return postpone(entry, sentenceIn(answer.text));
    connected = true;
    pause = FIRST_PAUSE_MS;
    await settle(entry, answer, verdict);
    return true;
  }

  // A page that shows the answer beside its form says so; what nobody saw stays, to be seen.
  async function settle(entry, answer, verdict) {
    const detail = { form: here.get(entry.number), entry, answer, verdict };
    here.delete(entry.number);
    const event = new CustomEvent("answered", { cancelable: true, detail });
    const seen = !document.dispatchEvent(event);
    if (verdict === "kept" || seen) await outbox.remove(entry.number);
    else if (await stillThere(entry.number)) {
      await outbox.put({ ...entry, state: "refused", why: sentenceIn(answer.text) });
    }
    changed();
  }

  function takeBack(entry, seq) {
    const body = new URLSearchParams({ kind: entry.kind, seq }).toString();
    return post(`${entry.fitting}/void`, body);
  }

  async function postpone(entry, why) {
    connected = false;
    clearTimeout(timer);
    timer = setTimeout(sendAll, pause);
    pause = Math.min(2 * pause, LONGEST_PAUSE_MS);
    const latest = await stillThere(entry.number);
    if (latest) await outbox.put({ ...latest, delayed: true, why });
    changed();
    return false;
  }

  async function sendAll() {
    wanted = true;
    if (busy) return;
    busy = true;
    clearTimeout(timer);
    timer = 0;
    try {
      while (wanted) {
        wanted = false;
        const entry = (await outbox.all()).find((each) => each.state === "waiting");
        if (!entry) connected = true;
        else if (await sendOne(entry)) wanted = true;
      }
    } finally {
      busy = false;
    }
    await tell();
  }

  async function add(entry, form, replaced) {
    const waiting = { ...entry, state: "waiting", at: Date.now() };
    here.set(await outbox.put(waiting, replaced), form);
    changed();
    sendAll();
  }

  // What may have reached the records is taken back there; what never left is simply let go.
  async function recall(number) {
    const entry = await stillThere(number);
    if (!entry) return;
    const inDoubt = entry.state === "waiting" && entry.kind && (entry.delayed || busy);
    if (inDoubt) await outbox.put({ ...entry, recalled: true });
    else await outbox.remove(number);
    changed();
    sendAll();
  }

  async function again(number) {
    const entry = await stillThere(number);
    if (entry) await outbox.put({ ...entry, state: "waiting", why: "" });
    changed();
    sendAll();
  }

  // Another page of this browser sends what it took; should it be closed meanwhile, this one does.
  elsewhere?.addEventListener("message", () => {
    tell();
    timer ||= setTimeout(sendAll, 2 * PATIENCE_MS);
  });
  addEventListener("online", sendAll);
  addEventListener("pageshow", sendAll);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) sendAll(); });
  document.addEventListener("htmx:sse:after:connection", sendAll);

  return { add, again, recall, sendAll };
})();
