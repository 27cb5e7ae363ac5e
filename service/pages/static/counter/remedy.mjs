// What can be used against it: first whether anything is needed, then what helps without a product, then the products of
// the shelf with their verdicts, and what must be asked before one of them is named.
import { behind, frame, lines, reasons } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { button, el, folded, freshId, list } from "../lib/dom.mjs";
import { entries, field, fields as fieldsOf, placeFor } from "../lib/forms.mjs";
import { inOurs, whateverIsKnown } from "../lib/known.mjs";
import { mark, tag, verdict } from "../lib/marks.mjs";
import { chosenCrop, cropField, cultivarField } from "../lib/names.mjs";
import { t } from "../lib/words.mjs";
import { needsOf, productCard } from "./product_card.mjs";

export const id = "remedy";
export const title = "task.remedy";
export const renamed = { "/suspects": "/disorder" };
const Q = "treatment-pointers";
const NEED = { emergency: "stop", refer: "stop", report: "stop", cause_not_sure: "unknown", not_a_pest: "do", no_product_works: "stop",
  too_late: "wait", watch: "wait", product_may_help: "note" };
const DAY = ["high_f", "temp_f", "low_48h_f", "wind_mph", "rain_in_hours", "heavy_rain_24h"].map((name) => `/weather/${name}`);
const AROUND = ["understory_crops", "understory_coverable", "water_ft", "drain", "ground_bloom", "hive_ft", "play_area", "pets",
  "quarantine_area"].map((name) => `/site/${name}`);
const WHO = ["kind", "organic", "certified", "for_hire", "applicator_age"].map((name) => `/customer/${name}`);
const TREE = ["/tree/drought_stressed", "/tree/nonbearing", "/tree/no_crop", "/symptoms", "/inside_fruit", "/cut_out", "/new_generation",
  "/new_to_place", "/full_bloom_date", "/method", "/own_stock_active"];

const FIELD_OF = { "product.over_max_f": "/weather/high_f", "use.state": "/state", "use.stage": "/stage" };

const disorders = await whateverIsKnown("/v1/disorders");
const shelf = await whateverIsKnown("/v1/shelf-products");

export function fields() {
  const products = shelf.map((one) => [one.id, one.label.product_name ?? one.id]);
  const used = [(pointer) => field(Q, `${pointer}/date`, { label: t("label.treatment.used_on") }),
    (pointer) => field(Q, `${pointer}/product`, { kind: "choice", values: products }), (pointer) => field(Q, `${pointer}/actives`)];
  return [cropField(Q), cultivarField(Q, "/cultivar", { crop: chosenCrop }), disorderField(),
    fieldsOf(Q, ["/date", "/stage", "/harvest_from", "/state", "/exposure_reported"]),
    folded(t("remedy.day"), fieldsOf(Q, DAY)), folded(t("remedy.around"), fieldsOf(Q, AROUND)),
    folded(t("remedy.tree"), fieldsOf(Q, TREE)), folded(t("remedy.who"), fieldsOf(Q, [...WHO, "/asks"])),
    folded(t("remedy.before"), entries("/history", used, { legend: t("remedy.a_use"), add: t("remedy.add_use"), first: 0 }),
      field(Q, "/reference"))];
}

// The causes that are met on the crop, offered by name while somebody types.
function disorderField() {
  const offered = el("datalist", { id: freshId("causes") });
  const made = field(Q, "/disorder", { list: offered.id });
  made.append(offered);
  made.addEventListener("focusin", () => {
    const crop = chosenCrop(made);
    const met = disorders.filter((one) => !crop || one.hosts[crop]);
    offered.replaceChildren(...met.map((one) => el("option", { value: inOurs(one) })));
  });
  return made;
}

export function ask(site, form) {
  const place = { ...placeFor(Q, site), ...form.site };
  return question(`/v1/${Q}`, { ...form, site: place }, { task: id });
}

export function show(told, place, context) {
  const { answer, conclusions } = told;
  frame(place, told, {
    first: [headline(answer), measures(answer), leave(answer), timing(answer), missing(answer)],
    why: false,
    more: [products(answer), before(answer),
      folded([mark("note"), t("remedy.reminders", { count: answer.reminders.length })], lines(answer.reminders)),
      reasons(behind([...answer.reasons, ...answer.reminders], conclusions)),
      el("p", {}, button(t("remedy.take_home"), () => context.go("handout"), { class: "plain" }))],
  });
}

function headline(answer) {
  const line = verdict(NEED[answer.need] ?? "note", t(`remedy.need_${answer.need}`));
  line.classList.add("big");
  return [el("h2", {}, [...line.childNodes]), el("p", { class: "known" }, `${answer.name} · ${answer.crop_name}`), el("p", {}, answer.text)];
}

function measures({ measures: all }) {
  const now = (one) => (one.now === true ? "do" : one.now === false ? "wait" : "note");
  return all.length ? el("section", {}, el("h3", {}, t("remedy.measures")), list(all, (one) =>
    [mark(now(one)), el("span", {}, el("strong", {}, one.text), one.how && `: ${one.how}`, " ",
      el("span", { class: "known" }, one.now === true && one.when.length ? t("remedy.now") : `(${one.timing})`))], { class: "lines" })) : null;
}

function leave({ do_not: all }) {
  return all.length ? tag("stop", el("h3", {}, mark("stop"), t("remedy.leave")), list(all, (text) => text)) : null;
}

function timing({ timing: when }) {
  if (!when.text) return null;
  const kind = when.fits === true ? "do" : when.fits === false ? "wait" : "unknown";
  return el("p", {}, mark(kind), el("strong", {}, `${t(`remedy.timing_${kind}`)} `), when.text);
}

// What nobody told and what keeps a product from being named, each leading to its field.
function missing({ products: all }) {
  const waiting = all.filter(({ verdict: said }) => said !== "forbidden").flatMap((one) => one.waits_for);
  const needs = new Map(waiting.flatMap(({ facts, needs: said }) => facts.map((fact, index) => [said[index] ?? said[0], fact])));
  return needs.size ? el("section", { class: "tag note" }, el("h3", {}, mark("unknown"), t("remedy.ask_first")),
    el("p", { class: "send" }, [...needs].map(([need, fact]) => asking(need, fact)))) : null;
}

function asking(need, fact) {
  const pointer = FIELD_OF[fact] ?? `/${fact.replace(".", "/")}`;
  const holder = document.querySelector(`.question [data-name="${pointer}"]`);
  if (!holder) return el("span", {}, need);
  return button(need, () => {
    for (let around = holder.parentElement; around; around = around.parentElement) if (around.open === false) around.open = true;
    holder.querySelector("input, select")?.focus();
  }, { class: "plain" });
}

function products({ products: all }) {
  const [open, closed] = [all.filter((one) => one.verdict !== "forbidden"), all.filter((one) => one.verdict === "forbidden")];
  if (!all.length) return el("p", {}, mark("unknown"), t("remedy.empty_shelf"));
  return el("section", {}, el("h2", {}, t("remedy.products")), !open.length && verdict("stop", t("remedy.none_fits")),
    el("div", { class: "cards" }, open.map(productCard)), closed.length > 0 && folded([mark("stop"), t("remedy.closed", { count: closed.length })], closed.map(productCard)));
}

function before({ before_spraying: all, products: some }) {
  return all.length && some.some((one) => one.verdict !== "forbidden") ? el("section", { class: "cautions" },
    el("h3", {}, mark("care"), t("remedy.look_first")), list(needsOf(all.map(({ check }) => ({ needs: [check] }))), (text) => text)) : null;
}
