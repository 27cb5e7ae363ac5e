// Which tree is picked when: a lane a tree, months from left to right. A harvest over the turn of the year has two bars.
import { figure, line, rect, scale, sheet, text } from "./chart.mjs";
import { dayText, monthName, t } from "./words.mjs";

const LEFT = 190;
const WIDTH = 900;
const TOP = 30;
const ROW = 34;

function dayOfYear(monthDay) {
  return (Date.UTC(2024, Number(monthDay.slice(0, 2)) - 1, Number(monthDay.slice(3))) - Date.UTC(2024, 0, 1)) / 86_400_000;
}

function bars({ from, to }) {
  const [first, last] = [dayOfYear(from), dayOfYear(to) + 1];
  return first < last ? [[first, last]] : [[first, 366], [0, last]];
}

// `trees`: [{name, crop_name, harvest: {from, to} | null}].
export function harvestChart(trees) {
  const x = scale([0, 366], [LEFT, WIDTH]);
  const height = TOP + trees.length * ROW + 6;
  const months = Array.from({ length: 12 }, (_, index) => {
    const start = x(dayOfYear(`${String(index + 1).padStart(2, "0")}-01`));
    return [line(start, TOP - 8, start, height, { class: "grid-line" }), text(start + 4, TOP - 12, monthName(index + 1, "short"))];
  });
  const lanes = trees.map((tree, index) => {
    const y = TOP + index * ROW;
    const name = text(LEFT - 10, y + 21, tree.name, { class: "name", "text-anchor": "end" });
    if (!tree.harvest) return [name, text(LEFT + 8, y + 21, t("chart.not_known"))];
    return [name, bars(tree.harvest).map(([first, last]) => rect(x(first), y + 6, Math.max(6, x(last) - x(first)), ROW - 12,
      { class: "bar fruit", rx: 4 }))];
  });
  const rows = trees.map(({ name, crop_name: crop, harvest }) =>
    [name, crop, harvest ? `${dayText(harvest.from)} – ${dayText(harvest.to)}` : t("chart.not_known")]);
  return figure(t("chart.harvest"), sheet(WIDTH, height, t("chart.harvest"), months, lanes),
    [[t("chart.tree"), t("chart.crop"), t("chart.picked")], ...rows]);
}
