// Points tapped in a photo. Places are in the picture's own pixels, the middle of the upper
// left one is 0,0. Without a pointer the arrow keys do everything.

(() => {
  "use strict";

  const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  const ZOOM = 4;
  const one = (selector, within = document) => within.querySelector(selector);

  function sizeOf(image) {
    return { x: +image.getAttribute("width"), y: +image.getAttribute("height") };
  }

  // Pixels of the picture that one dot of the screen stands for.
  function ratioOf(image) {
    return sizeOf(image).x / image.getBoundingClientRect().width;
  }

  function within(place, image) {
    const size = sizeOf(image);
    return {
      x: Math.min(Math.max(place.x, 0), size.x - 1),
      y: Math.min(Math.max(place.y, 0), size.y - 1),
    };
  }

  function placeAt(event, image) {
    const box = image.getBoundingClientRect();
    const ratio = ratioOf(image);
    return within({
      x: (event.clientX - box.left) * ratio - 0.5, y: (event.clientY - box.top) * ratio - 0.5,
    }, image);
  }

  function middleOf(image) {
    const size = sizeOf(image);
    return { x: (size.x - 1) / 2, y: (size.y - 1) / 2 };
  }

  function moved(place, arrow, image, far) {
    const step = Math.max(0.5, ratioOf(image) / ZOOM) * (far ? 10 : 1);
    return within({ x: place.x + arrow[0] * step, y: place.y + arrow[1] * step }, image);
  }

  function put(mark, place, image) {
    const size = sizeOf(image);
    mark.style.left = `${((place.x + 0.5) / size.x) * 100}%`;
    mark.style.top = `${((place.y + 0.5) / size.y) * 100}%`;
  }

  function newMark(glass, words) {
    const mark = document.createElement("div");
    mark.className = "shot-mark";
    mark.textContent = words;
    glass.append(mark);
    return mark;
  }

  function plain(event) {
    return !(event.ctrlKey || event.metaKey || event.altKey);
  }

  // The set-up: named points, one after the other

  function setUp(form) {
    const image = one(".shot-picture img", form);
    const glass = one("#shot-glass", form);
    const loupe = one("#loupe", form);
    const points = [...form.querySelectorAll("[data-point]")].map((item, index) => ({
      item, input: one("input", item), button: one("button", item), number: index + 1,
      label: one("b", item).textContent, place: null, mark: null,
    }));
    let hand = points[0];
    let fresh = true; // the next tap is for the point in hand

    const asked = (point) => !point.item.hidden && point.item.dataset.kind !== "spare";
    const nextOne = () => points.find((point) => asked(point) && !point.place);

    function place(point, at) {
      point.place = at;
      point.input.value = `${at.x.toFixed(1)},${at.y.toFixed(1)}`;
      point.mark ??= newMark(glass, point.number);
      put(point.mark, at, image);
    }

    function take(point) {
      hand = point;
      fresh = true;
      show();
    }

    function tapped(at) {
      if (!fresh) {
        const next = nextOne();
        if (!next) return;
        hand = next;
      }
      place(hand, at);
      fresh = false;
      show();
    }

    function nudge(arrow, far) {
      place(hand, moved(hand.place ?? middleOf(image), arrow, image, far));
      fresh = false;
      show();
    }

    function says(next) {
      if (fresh) return form.dataset.now.replace("{point}", hand.label);
      const words = next ? form.dataset.rightIt : form.dataset.allThere;
      return words.replace("{point}", hand.label).replace("{next}", next?.label ?? "");
    }

    function show() {
      const next = fresh ? hand : nextOne();
      for (const point of points) {
        point.button.setAttribute("aria-pressed", point === hand);
        point.mark?.classList.toggle("shot-mark-hand", point === hand);
        if (point.mark) point.mark.hidden = point.item.hidden;
        const word = point === next ? form.dataset.next : point.place ? form.dataset.set : "";
        one(".shot-state", point.item).textContent = word;
      }
      one("#shot-says", form).textContent = says(next);
      magnify();
    }

    function magnify() {
      loupe.classList.toggle("loupe-empty", !hand.place);
      if (!hand.place || !image.complete || !image.naturalWidth) return;
      const canvas = one("canvas", loupe);
      const shown = loupe.clientWidth;
      canvas.width = canvas.height = Math.round(shown * devicePixelRatio);
      const side = (shown / ZOOM) * ratioOf(image);
      const pen = canvas.getContext("2d");
      pen.drawImage(image, hand.place.x + 0.5 - side / 2, hand.place.y + 0.5 - side / 2, side, side,
        0, 0, canvas.width, canvas.height);
    }

    glass.addEventListener("click", (event) => tapped(placeAt(event, image)));
    glass.addEventListener("keydown", (event) => {
      const arrow = ARROWS[event.key];
      if (!plain(event)) return;
      if (arrow) {
        nudge(arrow, event.shiftKey);
        event.preventDefault();
      } else if (event.key === "Enter" || event.key === " ") {
        const next = nextOne();
        if (next) take(next);
        event.preventDefault();
      }
    });
    loupe.addEventListener("click", (event) => {
      if (!hand.place) return;
      const box = loupe.getBoundingClientRect();
      const ratio = ratioOf(image) / ZOOM;
      place(hand, within({
        x: hand.place.x + (event.clientX - box.left - box.width / 2) * ratio,
        y: hand.place.y + (event.clientY - box.top - box.height / 2) * ratio,
      }, image));
      show();
    });
    for (const button of form.querySelectorAll("[data-nudge]")) {
      button.addEventListener("click", () => nudge(ARROWS[button.dataset.nudge], false));
    }
    for (const point of points) point.button.addEventListener("click", () => take(point));

    function scaled() {
      const card = one("[name=scale]:checked", form)?.value === "card";
      for (const point of points) {
        if (point.item.dataset.kind === "card") point.item.hidden = !card;
      }
      if (hand.item.hidden) hand = points[0];
      show();
    }

    form.addEventListener("change", (event) => {
      if (event.target.name !== "scale") return;
      scaled();
      if (nextOne() && !fresh) take(nextOne());
    });
    form.addEventListener("submit", () => {
      one("[name=shown_px]", form).value = image.getBoundingClientRect().width.toFixed(0);
    });
    image.addEventListener("load", magnify);

    for (const point of points) {
      const [x, y] = point.input.value.split(",").map(Number);
      if (point.input.value && Number.isFinite(x) && Number.isFinite(y)) {
        place(point, within({ x, y }, image));
      }
    }
    scaled();
    take(nextOne() ?? points[0]);
    fresh = !hand.place;
    show();
  }

  // The board: the dot in a doubtful photo, asked of the program at once

  function board(glass) {
    const image = one("img", glass);
    const slot = one(".tapped", glass.closest("fieldset"));
    let at = middleOf(image);
    let mark = null;
    let asked = 0;

    function cross(place) {
      at = place;
      mark ??= newMark(glass, "");
      mark.classList.add("shot-mark-hand");
      put(mark, at, image);
    }

    async function settle() {
      const turn = ++asked;
      const body = new URLSearchParams({ x: at.x.toFixed(1), y: at.y.toFixed(1) });
      body.set("number", glass.dataset.number);
      let words = null;
      try {
        const answer = await fetch(glass.dataset.tapTo, { method: "POST", body });
        if (answer.ok) words = await answer.text();
      } catch {
        // told below
      }
      if (turn !== asked) return;
      if (words === null) slot.textContent = glass.dataset.unsaved;
      else slot.innerHTML = words;
    }

    glass.addEventListener("click", (event) => {
      cross(placeAt(event, image));
      settle();
    });
    glass.addEventListener("keydown", (event) => {
      const arrow = ARROWS[event.key];
      if (!plain(event)) return;
      if (arrow) {
        cross(moved(at, arrow, image, event.shiftKey));
        event.preventDefault();
      } else if (event.key === "Enter" || event.key === " ") {
        cross(at);
        settle();
        event.preventDefault();
      }
    });
  }

  const form = one("#points-form");
  if (form) setUp(form);
  for (const glass of document.querySelectorAll("[data-tap-to]")) board(glass);
})();
