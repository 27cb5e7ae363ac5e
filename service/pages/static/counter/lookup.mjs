// Look something up: cultivars, rootstocks, signs, disorders and the labels of the shelf, each with what is known of it
// and on whose authority.
import { Away, Problem, reference } from "../lib/ask.mjs";
import { el, fill, folded, list } from "../lib/dom.mjs";
import { inOurs } from "../lib/known.mjs";
import { mark } from "../lib/marks.mjs";
import { cropName } from "../lib/names.mjs";
import { momentText, speakAlso, t } from "../lib/words.mjs";
import { cultivarEntry, disorderEntry, labelEntry, rootstockEntry, signEntry } from "./entries.mjs";

export const id = "lookup";
export const title = "task.lookup";
const AT_ONCE = 20;
const KINDS = {
  cultivars: { path: "/v1/cultivars", show: cultivarEntry, name: (one) => `${one.denomination}, ${cropName(one.crop)}` },
  rootstocks: { path: "/v1/rootstocks", show: rootstockEntry, name: ({ name }) => name, here: true },
  signs: { path: "/v1/signs", show: signEntry, name: (one) => inOurs(one) },
  disorders: { path: "/v1/disorders", show: disorderEntry, name: (one) => inOurs(one) },
  labels: { path: "/v1/shelf-products", show: labelEntry, name: ({ id: shelf, label }) => label.product_name ?? shelf, here: true },
};

export async function open(place, context) {
  await speakAlso("catalogue");
  const typed = { kind: "cultivars", name: "", ...context.page.tasks.lookup };
  const found = el("div", { class: "found", tabindex: "-1" });
  const input = el("input", { id: "lookup-name", type: "search", autocomplete: "off", autocapitalize: "off", spellcheck: "false",
    enterkeyhint: "search", value: typed.name });
  const kinds = el("span", { class: "buttons" }, Object.keys(KINDS).map((kind) => el("label", {},
    el("input", { type: "radio", name: "lookup-kind", value: kind, checked: kind === typed.kind }), el("span", {}, t(`lookup.${kind}`)))));
  const look = (event) => {
    event?.preventDefault();
    const now = { kind: kinds.querySelector("input:checked").value, name: input.value.trim() };
    context.page.tasks.lookup = now;
    context.save();
    return search(now, found);
  };
  fill(place, el("h2", {}, t(title)), el("form", { novalidate: true, role: "search", on: { submit: look } },
    el("fieldset", { class: "field" }, el("legend", {}, t("lookup.what")), kinds),
    el("div", { class: "field" }, el("label", { for: "lookup-name" }, t("lookup.name")),
      el("span", { class: "with-button" }, input, el("button", { type: "submit" }, t("lookup.look"))))), found);
  if (typed.name) look();
}

// Where the service takes no name, the page looks through the whole list itself.
async function search({ kind, name }, place) {
  const { path, here, show, name: named } = KINDS[kind];
  fill(place, el("p", { role: "status" }, t("shell.asking")));
  try {
    const items = [];
    let cursor = null;
    let old = null;
    do {
      const query = new URLSearchParams({ limit: here ? 200 : AT_ONCE, ...(name && !here ? { name } : {}), ...(cursor ? { cursor } : {}) });
      const { value, stale, at } = await reference(`${path}?${query}`);
      items.push(...value.items.filter((one) => !here || plain(named(one)).includes(plain(name))));
      cursor = value.next_cursor;
      old = stale ? at : old;
    } while (here && cursor);
    fill(place, old && el("p", { class: "stale" }, mark("wait"), t("lookup.old", { time: momentText(old) })),
      el("p", { role: "status" }, counted(items, cursor)), items.length === 1 ? el("article", { class: "tag" }, el("h3", {}, named(items[0])), show(items[0]))
        : list(items, (one) => folded(named(one), show(one)), { class: "reasons" }),
      cursor && el("p", { class: "known" }, t("lookup.narrow")));
  } catch (fault) {
    if (fault instanceof Away) fill(place, el("p", { class: "stale" }, mark("wait"), t("lookup.away")));
    else if (fault instanceof Problem) fill(place, el("p", { class: "error", role: "alert" }, [fault.message, ...fault.errors.map(({ detail }) => detail)].join(" ")));
    else throw fault;
  }
}

function counted(items, more) {
  if (!items.length) return t("lookup.none");
  return more ? t("lookup.first", { count: items.length }) : t("lookup.found", { count: items.length });
}

function plain(text) {
  return text.normalize("NFD").replaceAll(/[\u0300-\u036f]/g, "").toLowerCase();
}

