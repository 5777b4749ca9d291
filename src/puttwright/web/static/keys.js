// Keys of the page on the green. A page-turner or a foot switch hands over the next head (Page Down,
// or the space bar where nothing else takes it) and goes back (Page Up). With the drawing in focus a
// figure key opens the entry by number, and Backspace takes the last reading back.

(() => {
  "use strict";

  const TAKES_KEYS = "input, textarea, select, button, a, summary, [contenteditable], .glass";
  const FIGURE = /^[0-9.,\u2212-]$/;
  const ON = "puttwright-keys"; // who came by a key goes on with keys
  const one = (selector) => document.querySelector(selector);

  function nextHead() {
    const inHand = one("#state [name=hand]")?.value;
    const steps = [...document.querySelectorAll("#verdict [data-next]")];
    return steps[0]?.dataset.hand === inHand ? steps[1] : steps[0];
  }

  function turn(event) {
    const next = nextHead();
    if (!next || event.repeat) return;
    event.preventDefault();
    sessionStorage.setItem(ON, "yes");
    location.assign(next.href);
  }

  function byNumber() {
    const folded = one("#by-number");
    if (!folded) return;
    folded.open = true;
    folded.querySelector("#numbers input:not([type=radio])")?.focus(); // the figure goes in there
  }

  function onGlass(event) {
    if (FIGURE.test(event.key)) byNumber();
    else if (event.key === "Backspace" && !event.repeat) one("#last form")?.requestSubmit();
  }

  document.addEventListener("keydown", (event) => {
    if (!one("#bench") || event.ctrlKey || event.metaKey || event.altKey) return;
    const typing = event.target.closest("input:not([type=radio]), textarea, select");
    if (event.key === "PageDown" && !typing) turn(event);
    else if (event.key === "PageUp" && !typing && sessionStorage.getItem(ON)) {
      event.preventDefault();
      history.back();
    } else if (event.key === " " && !event.target.closest(TAKES_KEYS)) turn(event);
    else if (event.target.closest("#tap-form .glass")) onGlass(event);
  });

  addEventListener("load", () => {
    if (one("#bench") && sessionStorage.getItem(ON)) one("#glass")?.focus({ focusVisible: true });
  });
  addEventListener("pointerdown", () => sessionStorage.removeItem(ON));
})();
