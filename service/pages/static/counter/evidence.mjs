// What is seen on a sick tree: signs that are there, that are not, and that nobody can tell, each with its drawing.
import { button, el, fill, folded } from "../lib/dom.mjs";
import { inOurs, whateverIsKnown } from "../lib/known.mjs";
import { mark } from "../lib/marks.mjs";
import { choice, t } from "../lib/words.mjs";

const signs = new Map((await whateverIsKnown("/v1/signs")).map((one) => [one.id, one]));
const PRESENT = "/signs/present";
const ABSENT = "/signs/absent";
const CANNOT_TELL = "/signs/cannot_tell";
const KIND = { [PRESENT]: "do", [ABSENT]: "stop", [CANNOT_TELL]: "unknown" };
const ANSWERS = [[PRESENT, "shell.yes"], [ABSENT, "shell.no"], [CANNOT_TELL, "trouble.cannot_tell"]];

export function signName(id) {
  const known = signs.get(id);
  return known ? inOurs(known) : id;
}

function short(pointer) {
  return pointer.split("/").pop();
}

// The three lists of the form, empty until somebody answers; taking one away asks again.
export function evidenceFields(context) {
  return Object.keys(KIND).map((pointer) => held(pointer, context));
}

function held(pointer, context) {
  let ids = [];
  const place = el("ul", { class: "held tokens" });
  const holder = el("div", { class: "field evidence", "data-name": pointer, "data-kind": "words", hidden: true },
    el("strong", {}, mark(KIND[pointer]), t(`trouble.${short(pointer)}`)), place, el("strong", { class: "error" }));
  const show = () => {
    holder.hidden = !ids.length;
    fill(place, ids.map((id) => el("li", {}, el("span", {}, signName(id)),
      button("×", () => context.change({ [pointer]: ids.filter((one) => one !== id) }),
        { class: "plain", "aria-label": t("shell.take_away", { name: signName(id) }) }))));
  };
  place.held = () => ids;
  place.hold = (wanted) => { ids = [...wanted]; show(); };
  return holder;
}

// The lists with a sign moved into one of them, or with `where` null out of all.
function moved(context, sign, where) {
  const told = context.form().signs ?? {};
  const lists = Object.keys(KIND).map((pointer) => [pointer, (told[short(pointer)] ?? []).filter((one) => one !== sign)]);
  return Object.fromEntries(lists.map(([pointer, ids]) => [pointer, pointer === where ? [...ids, sign] : ids]));
}

// A question about one sign with its drawing; any answer asks the service again.
export function signQuestion(one, context, { big = false } = {}) {
  const leaning = [[one.if_yes, "trouble.if_yes"], [one.if_no, "trouble.if_no"]].filter(([leads]) => leads);
  return el("article", { class: `tag note sign ${big ? "big" : ""}` },
    el("img", { src: one.drawing, alt: "", width: 120, height: 120, loading: "lazy" }),
    el("div", {}, el("h3", {}, one.question),
      one.like && el("p", { class: "known" }, t("trouble.like", { like: one.like })),
      one.needs && el("p", { class: "known" }, mark("note"), t("trouble.needs", { tool: choice(one.needs, "tool") })),
      el("p", { class: "send" }, ANSWERS.map(([where, words]) => button(t(words), () => context.change(moved(context, one.sign, where)),
        { class: where === PRESENT ? "" : "plain", "aria-label": `${t(words)}: ${one.question}` }))),
      big && leaning.length > 0 && el("ul", { class: "lines" }, leaning.map(([leads, words]) => el("li", {}, el("span", {}, el("strong", {}, t(words)), " ", leads.text))))));
}

// Whether somebody has answered for this sign already.
export function isAnswered(sign, context) {
  return Object.values(context.form().signs ?? {}).some((ids) => ids.includes(sign));
}

// All signs of one part of the tree as drawings; a touch marks one as seen, another touch takes it back.
export function pointing(context) {
  const parts = [...new Set([...signs.values()].map(({ part }) => part))];
  const grid = el("div", { class: "drawings" });
  const chosen = (part) => [...signs.values()].filter((one) => one.part === part).map((one) => drawing(one, context));
  const choose = (part, event) => {
    for (const other of event.target.parentElement.children) other.setAttribute("aria-pressed", other === event.target);
    fill(grid, chosen(part));
  };
  return parts.length ? folded(t("trouble.point"), el("p", { class: "buttons" }, parts.map((part) =>
    button(choice(part, "part"), (event) => choose(part, event),
      { class: "plain", "aria-pressed": "false" }))), grid) : null;
}

function drawing(one, context) {
  const seen = (context.form().signs?.present ?? []).includes(one.id);
  const made = button("", (event) => {
    const now = event.currentTarget.getAttribute("aria-pressed") !== "true";
    const form = event.currentTarget.closest("form");
    for (const [pointer, ids] of Object.entries(moved(context, one.id, now ? PRESENT : null))) {
      form.querySelector(`[data-name="${pointer}"] .tokens`).hold(ids);
    }
    event.currentTarget.setAttribute("aria-pressed", now);
    form.dispatchEvent(new Event("input", { bubbles: true }));
  }, { class: "plain drawing-choice", "aria-pressed": String(seen) });
  made.append(el("img", { src: one.drawing, alt: "", width: 88, height: 88, loading: "lazy" }), el("span", {}, inOurs(one)));
  return made;
}
