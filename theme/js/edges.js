// Two edges side by side, to scale: what is short of the longer one is hatched.

import { inchWords, metricWords } from "./lengths.js";

const DRAWN_IN = "http://www.w3.org/2000/svg";
const LONGEST = 280;
const TALL = 34;
/** Above so many stitches an edge is drawn without its seams. */
const MOST_CELLS = 40;
const TOPS = [34, 78];
const WORDS = [22, 136];

/**
 * @param {HTMLElement} figure
 * @param {object} join  of the data
 * @param {{lengths: number[]}} fit
 */
export function drawEdges(figure, join, fit) {
  const longest = Math.max(...fit.lengths);
  const inch = document.documentElement.dataset.units === "inch";
  const svg = draw("svg", { class: "edges", viewBox: "-172 0 344 150", role: "img" });
  svg.append(draw("line", { class: "axis", x1: 0, x2: 0, y1: 0, y2: 150 }));
  const words = join.sides.map((side, at) => {
    const mm = fit.lengths[at];
    return `${side.of}: ${inch ? inchWords(mm) : metricWords(mm)}`;
  });
  join.sides.forEach((side, at) => {
    const long = LONGEST * fit.lengths[at] / longest;
    svg.append(...cells(side, long, TOPS[at]));
    if (long < LONGEST) svg.append(...missing(long, TOPS[at]));
    const label = draw("text", { x: 0, y: WORDS[at], "text-anchor": "middle" });
    label.append(words[at]);
    svg.append(label);
  });
  const title = draw("title", {});
  title.append(`Two edges side by side, to scale: ${words.join("; ")}.`);
  svg.prepend(title);
  figure.querySelector("svg")?.remove();
  figure.prepend(svg);
  figure.querySelector("figcaption").replaceChildren(
    `${join.sides[0].of[0].toUpperCase()}${join.sides[0].of.slice(1)} in your yarn, and what it is joined to, to scale. Hatched: what is short.`);
}

function cells(side, long, top) {
  const lying = side.plain ? Math.floor(side.count / (side.layers ?? 1)) : 1;
  const count = lying > MOST_CELLS || lying < 1 ? 1 : lying;
  return Array.from({ length: count }, (_, at) => bar(`yarn ${side.yarn}`, -long / 2 + at * long / count, long / count, top));
}

function missing(long, top) {
  const short = (LONGEST - long) / 2;
  return [long / 2, -LONGEST / 2].map((x) => bar("short", x, short, top));
}

function bar(css, x, width, top) {
  return draw("rect", { class: css, x: x.toFixed(2), width: width.toFixed(2), y: top, height: TALL });
}

function draw(tag, attributes) {
  const element = document.createElementNS(DRAWN_IN, tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  return element;
}
