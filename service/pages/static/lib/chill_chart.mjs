// The winters of a place as bars, and what trees need as a band across them: a glance says in which winters it is met.
import { figure, line, rect, scale, sheet, text, ticks } from "./chart.mjs";
import { number, t } from "./words.mjs";

const [LEFT, WIDTH, TOP, FLOOR, HEIGHT, LABEL] = [64, 900, 16, 250, 280, 60];

const named = ({ name, general }) => (general ? `${name} *` : name);

// `winters`: [{winter, value}], `needs`: [{name, low, high, general}] in the same unit, `unit`: hours or portions.
export function chillChart({ winters, needs, unit }) {
  const most = Math.max(...winters.map(({ value }) => value), ...needs.map(({ low, high }) => high ?? low ?? 0), 1) * 1.1;
  const y = scale([0, most], [FLOOR, TOP]);
  const right = needs.length ? WIDTH - 215 : WIDTH;
  const step = (right - LEFT) / winters.length;
  const each = Math.ceil(LABEL / step);
  const axis = ticks(most).map((value) => [line(LEFT, y(value), right, y(value), { class: "grid-line" }),
    text(LEFT - 8, y(value) + 5, number(value, 0), { "text-anchor": "end" })]);
  const columns = winters.map(({ winter, value }, index) => {
    const left = LEFT + index * step;
    return [rect(left + step * 0.15, y(value), step * 0.7, FLOOR - y(value), { class: "bar winter" }),
      index % each === 0 && text(left + step / 2, FLOOR + 20, winter, { "text-anchor": "middle", class: "small" }),
      text(left + step / 2, y(value) - 4, number(value, 0), { "text-anchor": "middle", class: "small" })];
  });
  const bands = needs.map((need, index) => {
    const [low, high] = [need.low ?? need.high, need.high ?? need.low];
    const label = TOP + 16 + index * 22;
    return [rect(LEFT, y(high), right - LEFT, Math.max(3, y(low) - y(high)), { class: `need need-${index}` }),
      line(right, y(high), right + 16, label - 5, { class: "lead" }), text(right + 20, label, named(need), { class: "name" })];
  });
  const note = needs.some(({ general }) => general) ? t("chart.general") : null;
  const title = t(`chart.chill_${unit}`);
  const met = (value, need) => (value >= (need.high ?? need.low) ? t("chart.met") : t("chart.not_met"));
  const rows = winters.map(({ winter, value }) => [winter, number(value, 0), ...needs.map((need) => met(value, need))]);
  return figure(title, sheet(WIDTH, HEIGHT, title, bands, axis, columns),
    [[t("chart.winter"), t(`chart.${unit}`), ...needs.map(named)], ...rows], note);
}
