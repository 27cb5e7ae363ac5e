// Watches for a customer who has gone: first a warning that any touch or key takes away, then the page starts over.
// It goes by the time of day and not by counting, so that a device that slept starts over as it wakes.
import { button, el, fill } from "../lib/dom.mjs";
import { t } from "../lib/words.mjs";

const WARNING_S = 20;
const TOUCHES = ["pointerdown", "keydown", "wheel", "touchmove"];

export function watchIdle({ seconds, busy, reset }) {
  let last = Date.now();
  const left = el("p", { class: "left", "aria-hidden": "true" });
  const dialog = el("dialog", { class: "warning", "aria-labelledby": "idle-title", "aria-describedby": "idle-says" });
  document.body.append(dialog);
  dialog.addEventListener("cancel", stay);
  for (const touch of TOUCHES) document.addEventListener(touch, stay, { capture: true, passive: true });
  setInterval(look, 1000);
  document.addEventListener("visibilitychange", look);

  function stay() {
    last = Date.now();
    if (dialog.open) dialog.close();
  }

  function look() {
    const gone = (Date.now() - last) / 1000;
    if (!busy()) stay();
    else if (gone >= seconds) { stay(); reset(); }
    else if (gone >= seconds - WARNING_S) warn(Math.ceil(seconds - gone));
  }

  function warn(rest) {
    left.textContent = t("kiosk.idle_left", { count: rest });
    if (dialog.open) return;
    fill(dialog, el("h2", { id: "idle-title" }, t("kiosk.idle_title")),
      el("p", { id: "idle-says" }, t("kiosk.idle_says", { count: WARNING_S })), left, button(t("kiosk.idle_stay"), stay, { class: "next" }));
    dialog.showModal();
  }
}
