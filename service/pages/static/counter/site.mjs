// The customer's place, above every question: postal code as they say it, zone, chill, plot and height; all else folded.
// The store's own climate, or a file of temperatures, fills in what nobody knows.
import { Away, Problem, json, reference } from "../lib/ask.mjs";
import { button, el, fill, folded } from "../lib/dom.mjs";
import { field, putBack, typedOf } from "../lib/forms.mjs";
import { regionField } from "../lib/names.mjs";
import { both } from "../lib/units.mjs";
import { t } from "../lib/words.mjs";

const FIRST = ["hardiness_zone", "chill_hours", "width_ft", "depth_ft", "max_height_ft"];
const MORE = ["sun_hours", "drainage", "soil_ph", "replant", "summer", "last_spring_frost", "first_autumn_frost",
  "chill_portions", "warmest_month_f", "latitude"];
const OF_THE_YEAR = ["rain", "rains_begin", "district", "coast", "soil"];
const FROM_CLIMATE = ["hardiness_zone", "chill_hours", "chill_portions", "latitude", "last_spring_frost",
  "first_autumn_frost", "summer", "rain", "rains_begin", "region"];

const of = (question, names) => names.map((name) => field(question, `/site/${name}`));

export function placePanel(context, changed) {
  const general = el("p", { class: "error", role: "alert" });
  const note = el("p", { class: "known", role: "status" });
  const form = el("form", { novalidate: true, on: { submit: (event) => event.preventDefault(), input: changed, change: changed } },
    el("div", { class: "grid" }, field("place", "/note/postal_code"), of("variety-suggestions", FIRST)),
    el("p", { class: "send" }, button(t("site.take_climate"), () => takeStores(form, { context, note, general, changed }), { class: "plain" }), note),
    folded(t("site.more"), el("div", { class: "grid" }, of("variety-suggestions", MORE), regionField("season-plans", "/site/region"), of("season-plans", OF_THE_YEAR))),
    folded(t("site.from_file"), fromFile({ context, note, general, changed })), general);
  const place = el("details", { class: "place", open: true }, el("summary", {}, el("strong", {}, t("site.title")), " ",
    el("span", { class: "known" })), form);
  return place;
}

export function describePlace(panel, page) {
  const typed = page.site;
  const said = (name) => typed[`/site/${name}`];
  const parts = [typed["/note/postal_code"], said("hardiness_zone") && t("site.zone", { zone: said("hardiness_zone") }),
    said("chill_hours") && t("site.chill", { hours: said("chill_hours") }),
    said("width_ft") && said("depth_ft") && `${said("width_ft")} × ${said("depth_ft")} ft`,
    said("max_height_ft") && t("site.under", { height: Number.isNaN(Number(said("max_height_ft"))) ? said("max_height_ft") : both(Number(said("max_height_ft")), "ft") })];
  panel.querySelector("summary .known").textContent = parts.filter(Boolean).join(" · ") || t("site.nothing");
}

// Fills in what the climate says; what the customer said stays.
function takeOver(form, climate, { context, note, changed }, words) {
  const typed = typedOf(form);
  for (const name of FROM_CLIMATE) {
    const value = climate[name];
    if (value !== null && value !== undefined) typed[`/site/${name}`] ??= String(typeof value === "number" ? Math.round(value * 10) / 10 : value);
  }
  putBack(form, typed);
  context.page.winters = climate.winters?.length ? climate.winters : context.page.winters ?? null;
  note.textContent = words;
  changed();
}

async function takeStores(form, parts) {
  fill(parts.general);
  try {
    const { value, stale } = await reference("/v1/store-climate");
    const name = value.name ?? t("site.the_store");
    takeOver(form, value, parts, [t("site.took", { name }), value.invented && t("site.invented"), stale && t("site.stale")]
      .filter(Boolean).join(" "));
  } catch (fault) { say(fault, parts.general); }
}

function fromFile(parts) {
  const file = el("input", { type: "file", accept: ".csv,text/csv", id: "weather-file" });
  const latitude = el("input", { id: "weather-latitude", inputmode: "decimal" });
  const send = async (event) => {
    const form = event.target.closest("form");
    const body = file.files[0];
    fill(parts.general, body ? "" : t("site.choose_file"));
    if (!body) return;
    try {
      const query = new URLSearchParams({ latitude: latitude.value });
      const { answer } = await json(`/v1/climate-summaries?${query}`, { method: "POST", body, type: "text/csv" });
      const safe = answer.safe_chill ?? {};
      takeOver(form, { ...answer, ...safe, winters: answer.winters.filter((one) => one.counted), latitude: Number(latitude.value) },
        parts, t("site.read_file", { count: answer.winters.length, warnings: answer.warnings.join(" ") }));
    } catch (fault) { say(fault, parts.general); }
  };
  return el("div", { class: "grid" }, el("div", { class: "field" }, el("label", { for: "weather-file" }, t("site.file")), file,
    el("small", {}, t("site.file_hint"))), el("div", { class: "field" }, el("label", { for: "weather-latitude" }, t("site.latitude")), latitude),
  el("p", {}, button(t("site.read"), send, { class: "plain" })));
}

function say(fault, general) {
  if (fault instanceof Problem) general.textContent = [fault.message, ...fault.errors.map(({ detail }) => detail)].join(" ");
  else if (fault instanceof Away) general.textContent = t("news.away");
  else throw fault;
}
