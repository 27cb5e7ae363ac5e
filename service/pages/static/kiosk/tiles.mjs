// Large targets: one to choose, several to choose, a number to step to. All are buttons, so keys work them as well.
import { button, el, fill } from "../lib/dom.mjs";
import { t } from "../lib/words.mjs";

function face({ picture, word, note }) {
  return [picture ?? null, el("strong", {}, word), note ? el("small", {}, note) : null];
}

// `options`: [{value, word, note, picture}]; `choose(value)` is told of the one that is touched.
export function tiles(options, choose, { kind = "" } = {}) {
  return el("ul", { class: `tiles ${kind}` }, options.map((one) =>
    el("li", {}, button(el("span", { class: "face" }, face(one)), () => choose(one.value), { class: "tile" }))));
}

export function toggles(options, held) {
  const toggle = (value) => ({ currentTarget: pressed }) => {
    if (!held.delete(value)) held.add(value);
    pressed.setAttribute("aria-pressed", String(held.has(value)));
  };
  return el("ul", { class: "tiles" }, options.map((one) => el("li", {}, button(el("span", { class: "face" }, face(one)),
    toggle(one.value), { class: "tile", "aria-pressed": String(held.has(one.value)) }))));
}

// A whole number from `low` to `high`, said by `say(value)`.
export function stepper({ low, high, start, say }) {
  let value = start;
  const shown = el("output", { class: "count" });
  const less = button("−", () => step(-1), { class: "step", "aria-label": t("kiosk.less") });
  const more = button("+", () => step(1), { class: "step", "aria-label": t("kiosk.more") });
  function step(by) {
    value = Math.min(high, Math.max(low, value + by));
    fill(shown, say(value));
    less.disabled = value === low;
    more.disabled = value === high;
  }
  step(0);
  return { place: el("div", { class: "stepper" }, less, shown, more), value: () => value };
}

export function next(act, word = t("kiosk.next")) {
  return el("p", { class: "forward" }, button(word, act, { class: "next" }));
}
