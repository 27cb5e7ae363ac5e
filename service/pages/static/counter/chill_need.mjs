// The chill that cultivars ask for, set against the winters of the place.
import { reference } from "../lib/ask.mjs";
import { chillChart } from "../lib/chill_chart.mjs";
import { el } from "../lib/dom.mjs";
import { t } from "../lib/words.mjs";

const MOST = 4;

function span(stated) {
  const amount = stated?.value?.amount;
  return amount && (amount.low !== null || amount.high !== null) ? amount : null;
}

async function needOf({ cultivar, name, crop }, count) {
  const own = span((await reference(`/v1/cultivars/${cultivar}`)).value[count]);
  if (own) return { name, ...own };
  const usual = span((await reference(`/v1/crops/${crop}`)).value[count]);
  return usual && { name, general: true, ...usual };
}

function winters(site, kept, count) {
  const told = (kept ?? []).filter((one) => one[count] !== null && one[count] !== undefined);
  if (told.length) return told.map((one) => ({ winter: one.winter, value: one[count] }));
  return site?.[count] ? [{ winter: t("varieties.this_place"), value: site[count] }] : [];
}

// The chart of up to four cultivars in hours, or in portions where only they can be compared; null where nothing can.
export async function chillNeeds(trees, site, kept) {
  for (const unit of ["hours", "portions"]) {
    const shown = winters(site, kept, `chill_${unit}`);
    if (!shown.length) continue;
    const needs = (await Promise.all(trees.slice(0, MOST).map((tree) => needOf(tree, `chill_${unit}`)))).filter(Boolean);
    if (needs.length) return chillChart({ winters: shown, needs, unit });
  }
  return null;
}

// A place that fills itself with the chart once its figures have come, and stays empty where they cannot be had.
export function chillPlace(trees, site, kept) {
  const place = el("div", {});
  chillNeeds(trees, site, kept).then((chart) => { if (chart) place.replaceChildren(chart); }, () => {});
  return place;
}
