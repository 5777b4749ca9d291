// Clips on their way to the program: how much of them has gone out is shown, since a phone's
// slow motion is large. Without this the form is sent as any other.

(() => {
  "use strict";

  const form = document.querySelector("#films-form");
  if (!form) return;
  const way = form.querySelector(".films-way");
  const bar = way.querySelector("progress");
  const button = form.querySelector(".actions button");
  let underway = false;

  function say(words, share) {
    way.hidden = false;
    bar.hidden = share === null;
    if (share !== null) bar.value = share;
    way.querySelector("span").textContent = words;
  }

  function sending(event) {
    if (!event.lengthComputable) return;
    const share = Math.round((100 * event.loaded) / event.total);
    say((share < 100 ? form.dataset.sending : form.dataset.sent).replace("{share}", share), share);
  }

  function lost() {
    underway = false;
    button.disabled = false;
    say(form.dataset.lost, null);
  }

  // What is wrong comes back as the page itself, with its sentences beside the fields; the files
  // that were chosen stay chosen.
  function answered(asked) {
    if (asked.status === 0) return lost();
    const at = new URL(asked.responseURL);
    if (at.searchParams.has("read")) return location.assign(at);
    const told = asked.response?.querySelector("#films-form");
    if (!told) return lost();
    const chosen = form.querySelector("[type=file]");
    const empty = told.querySelector("[type=file]");
    for (const name of ["aria-invalid", "aria-describedby"]) {
      if (empty.hasAttribute(name)) chosen.setAttribute(name, empty.getAttribute(name));
      else chosen.removeAttribute(name);
    }
    empty.replaceWith(chosen);
    const fresh = [...told.children].filter((each) => !each.matches(".films-way, .actions"));
    for (const each of [...form.children]) if (!each.matches(".films-way, .actions")) each.remove();
    form.prepend(...fresh);
    way.hidden = true;
    underway = false;
    button.disabled = false;
    (form.querySelector("[aria-invalid]") ?? button).focus();
    return undefined;
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (underway) return;
    underway = true;
    button.disabled = true;
    const asked = new XMLHttpRequest();
    asked.responseType = "document";
    asked.upload.addEventListener("progress", sending);
    asked.addEventListener("load", () => answered(asked));
    asked.addEventListener("error", lost);
    asked.open("POST", form.action);
    asked.send(new FormData(form));
  });
})();
