// The visit of one customer: a trail of screens, so that “Back” and the other language only make the last one anew.
// A screen is made by a function, perhaps after asking the service: {title, parts, told}. What was told stands in the
// function itself; nothing of a visit is kept on the device.
import { Away, Problem } from "../lib/ask.mjs";
import { button, el, fill } from "../lib/dom.mjs";
import { mark } from "../lib/marks.mjs";
import { t } from "../lib/words.mjs";

export function openVisit(place, first, { changed, done }) {
  let trail = [first];
  let turn = 0;

  async function show() {
    turn += 1;
    const mine = turn;
    place.setAttribute("aria-busy", "true");
    const screen = await made(trail.at(-1));
    if (mine !== turn) return;
    place.removeAttribute("aria-busy");
    const title = el("h1", { tabindex: "-1" }, screen.title);
    fill(place, title, screen.parts);
    scrollTo(0, 0);
    title.focus({ preventScroll: true });
    changed(visit);
  }

  async function made(make) {
    try {
      return await make(visit);
    } catch (fault) {
      if (!(fault instanceof Away || fault instanceof Problem)) console.error(fault);
      return fault instanceof Away ? failed("away") : failed("broken");
    }
  }

  function failed(how) {
    return { title: t("kiosk.ask_counter"), parts: [el("p", { class: "line stale" }, mark("wait"), t(`kiosk.${how}`)),
      el("p", {}, button(t("kiosk.again"), show, { class: "next" }))] };
  }

  const visit = {
    go: (make) => { trail.push(make); return show(); },
    // Takes the place of the screen that led here, so that “Back” does not lead into it again.
    turnTo: (make) => { trail.splice(-1, 1, make); return show(); },
    back: () => { if (trail.length > 1) { trail.pop(); show(); } },
    restart: () => { trail = [first]; return show(); },
    done,
    again: show,
    atStart: () => trail.length === 1,
  };
  return visit;
}
