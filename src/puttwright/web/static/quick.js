// Usual figures beside a field: one touch fills the field and its side. What is typed wins, and
// a figure that is typed is marked where it stands among them.

(() => {
  "use strict";

  const QUICK = "[data-quick]";

  const fieldOf = (quick) => quick.form.elements[quick.dataset.quick];
  const sidesOf = (quick) => quick.form.elements[`${quick.dataset.quick}-side`];

  function fill(quick) {
    fieldOf(quick).value = quick.value;
    sidesOf(quick).value = quick.dataset.side;
  }

  function stands(quick) {
    const typed = fieldOf(quick).value.trim().replace(",", ".");
    if (typed === "" || Number(typed) !== Number(quick.value)) return false;
    return sidesOf(quick).value === quick.dataset.side || Number(typed) === 0;
  }

  function mark(event) {
    const form = event.target.form ?? event.target;
    if (event.target.matches(QUICK)) fill(event.target);
    for (const quick of form.querySelectorAll?.(QUICK) ?? []) quick.checked = stands(quick);
  }

  for (const kind of ["input", "change", "filled"]) document.addEventListener(kind, mark);
})();
