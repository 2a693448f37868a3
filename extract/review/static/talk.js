// The talk in order of time, each recognised phrase marked by what it is: an underline of its own and
// a letter, so that nothing hangs on colour. Marks are drawn when their caption comes near.

import { byId, clock, el, said, timeText } from "./dom.js";
import { thing } from "./fields.js";
import { state } from "./store.js";

export const SORTS = {
  kind: ["K", "kind"], quantity: ["V", "value"], pins: ["V", "value"], number: ["N", "number"],
  package: ["P", "package"], marking: ["I", "imprint"], designator: ["I", "imprint"], maker: ["M", "maker"],
  role: ["R", "role"], board: ["B", "board"], colour: ["C", "colour"],
};

let cues = [];
let marks = [];
let owners = new Map(); // start of a mark -> [{of, field}]
const drawn = new WeakSet();
const near = new IntersectionObserver((seen) => {
  for (const { isIntersecting, target } of seen) if (isIntersecting) drawMarks(target);
}, { rootMargin: "600px" });

/** Show the talk; `marked` phrases come later. */
export function setUp(talk) {
  cues = talk.cues;
  tell(talk.problem);
  byId("cues").append(...cues.map(cueElement));
  byId("cues").firstElementChild?.setAttribute("tabindex", "0");
  const shown = [...new Map(Object.entries(SORTS).map(([label, [letter, name]]) => [letter, [label, name]]))];
  byId("legend").append(...shown.map(([letter, [label, name]]) =>
    el("li", {}, el("span", { class: `mark ${label}`, "data-letter": letter }, name))));
}

/** What is wrong with the talk or its recording, above it. */
export function tell(problem) {
  if (problem) byId("about-talk").append(el("span", {}, problem, " "));
}

function cueElement(cue, index) {
  const speaker = cue.speaker ? el("b", {}, said(cue.speaker), ": ") : null;
  return el("li", { class: "cue", "data-cue": index, tabindex: "-1" },
    cue.at === null ? null : el("button", { type: "button", class: "time", tabindex: "-1", "aria-label": `play from ${clock(cue.at)}` }, clock(cue.at)),
    el("p", { dir: "auto" }, speaker, el("span", { class: "text" }, cue.text)));
}

/** The recognised phrases of the talk. */
export function setMarks(found) {
  marks = found;
  relink();
  for (const cue of byId("cues").children) near.observe(cue);
}

/** Which words belong to which field, after any change. */
export function relink() {
  owners = new Map();
  const add = (of, links) => {
    for (const [start, , field] of links ?? []) {
      if (!owners.has(start)) owners.set(start, []);
      owners.get(start).push({ of, field });
    }
  };
  for (const [id, part] of state.parts) add(`part:${id}`, part.links);
  add("device", state.device.links);
}

const firstFrom = (list, value, key) => {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (key(list[middle]) < value) low = middle + 1;
    else high = middle;
  }
  return low;
};

function drawMarks(element) {
  if (!marks.length || drawn.has(element)) return;
  drawn.add(element);
  near.unobserve(element);
  const cue = cues[element.dataset.cue];
  const end = cue.start + cue.text.length;
  const pieces = [];
  let at = cue.start;
  for (let i = firstFrom(marks, cue.start, (mark) => mark.start); i < marks.length && marks[i].start < end; i += 1) {
    const mark = marks[i];
    if (mark.start < at) continue;
    const upto = Math.min(mark.end, end);
    const [letter, name] = SORTS[mark.label] ?? ["", mark.label];
    pieces.push(cue.text.slice(at - cue.start, mark.start - cue.start), el("span", {
      class: `mark ${mark.label}`, "data-letter": letter, "data-mark": i,
      title: `${name}: ${mark.readings.join(" or ")}${mark.repaired ? ` (${mark.repaired})` : ""}`,
    }, cue.text.slice(mark.start - cue.start, upto - cue.start)));
    at = upto;
  }
  pieces.push(cue.text.slice(at - cue.start));
  element.querySelector(".text").replaceChildren(...pieces.filter(Boolean));
  light(lit, false);
}

/** What a mark's element stands for: the mark, and the things and fields that it belongs to. */
export function markOf(element) {
  const mark = marks[element?.closest?.("[data-mark]")?.dataset.mark];
  return mark && { mark, owners: owners.get(mark.start) ?? [] };
}

let lit = null; // {of, field}: what is pointed at

/** Light up the words of an item, or of one field of it; null puts the light out. */
export function light(asked, scroll) {
  lit = asked;
  for (const old of document.querySelectorAll(".cue .lit, .cue.lit")) old.classList.remove("lit");
  CSS.highlights?.delete("quote");
  const plain = asked && thing(asked.of);
  if (!plain) return;
  const spans = plain.spans ?? (plain.links ?? []).filter(([, , field]) => field === asked.field);
  const ranges = [];
  let first = null;
  for (const [start, end] of spans ?? []) {
    for (const cue of cueElements(start, end)) {
      cue.classList.add("lit");
      first = first ?? cue;
      drawMarks(cue);
    }
    const range = rangeOf(start, end);
    if (range) ranges.push(range);
  }
  if (CSS.highlights && ranges.length) CSS.highlights.set("quote", new Highlight(...ranges));
  for (const [start, , field] of plain.links ?? []) {
    if (asked.field ? field === asked.field : field) markElement(start)?.classList.add("lit");
  }
  if (scroll && first) first.scrollIntoView({ block: "nearest" });
}

const markElement = (start) => {
  const index = firstFrom(marks, start, (mark) => mark.start);
  return marks[index]?.start === start ? document.querySelector(`[data-mark="${index}"]`) : null;
};

const cueIndex = (character) => Math.max(firstFrom(cues, character + 1, (cue) => cue.start) - 1, 0);

function cueElements(start, end) {
  const [first, last] = [cueIndex(start), cueIndex(Math.max(end - 1, start))];
  return Array.from({ length: last - first + 1 }, (_, index) => byId("cues").children[first + index]);
}

/** The place of a character of the talk in the document. */
function position(character) {
  const index = cueIndex(character);
  const walker = document.createTreeWalker(byId("cues").children[index].querySelector(".text"), NodeFilter.SHOW_TEXT);
  let left = character - cues[index].start;
  for (let node = walker.nextNode(), before = null; ; before = node, node = walker.nextNode()) {
    if (!node) return before && { node: before, offset: before.length };
    if (left <= node.length) return { node, offset: left };
    left -= node.length;
  }
}

export function rangeOf(start, end) {
  const [from, to] = [position(start), position(end)];
  if (!from || !to) return null;
  const range = document.createRange();
  range.setStart(from.node, from.offset);
  range.setEnd(to.node, to.offset);
  return range;
}

/** First and last character of the words that are selected in the talk, widened to whole words. */
export function selectedWords() {
  const selection = getSelection();
  if (!selection.rangeCount || selection.isCollapsed) return null;
  const range = selection.getRangeAt(0);
  const [from, to] = [character(range.startContainer, range.startOffset), character(range.endContainer, range.endOffset)];
  if (from === null || to === null || from >= to) return null;
  const index = cueIndex(from);
  const text = cues.slice(index, cueIndex(to - 1) + 1).map((cue) => cue.text).join(" ");
  let [start, end] = [from - cues[index].start, to - cues[index].start];
  while (start > 0 && /\S/.test(text[start - 1])) start -= 1;
  while (end < text.length && /\S/.test(text[end])) end += 1;
  const quote = text.slice(start, end).trim().replace(/[.,;:?!]+$/, "");
  if (!quote) return null;
  const inside = marks.filter((mark) => mark.start >= cues[index].start + start && mark.end <= cues[index].start + end);
  const { at } = cues[index];
  return { words: { at: at === null ? null : timeText(at), text: quote }, marks: inside };
}

function character(node, offset) {
  const text = (node.nodeType === Node.TEXT_NODE ? node.parentElement : node).closest?.(".cue .text");
  if (!text) return null;
  const range = document.createRange();
  range.setStart(text, 0);
  range.setEnd(node, offset);
  return cues[text.closest(".cue").dataset.cue].start + range.toString().length;
}

/** When an item, or one of its fields, was said, in seconds. */
export function timeOf(of, field) {
  const plain = thing(of);
  const link = (plain?.links ?? []).find(([, , name]) => name === field);
  const mark = link && marks[firstFrom(marks, link[0], ({ start }) => start)];
  if (mark) return mark.at === null ? null : mark.at / 1000;
  const span = plain?.spans?.[0];
  return span ? cues[cueIndex(span[0])].at : null;
}

export const cueAt = (index) => cues[index];

/** Show the caption that is being said. */
export function follow(time) {
  const index = Math.max(firstFrom(cues, time + 0.001, (cue) => cue.at ?? 0) - 1, 0);
  const now = byId("cues").children[index];
  if (now.classList.contains("now")) return;
  byId("cues").querySelector(".now")?.classList.remove("now");
  now.classList.add("now");
  now.scrollIntoView({ block: "nearest" });
}

/** Go to another caption by the keyboard. */
export function stepCue(by) {
  const here = document.activeElement.closest(".cue") ?? byId("cues").querySelector(".cue.lit") ?? byId("cues").firstElementChild;
  const next = by === 0 ? here : (by > 0 ? here.nextElementSibling : here.previousElementSibling) ?? here;
  here.tabIndex = -1;
  next.tabIndex = 0;
  next.focus({ preventScroll: true });
  next.scrollIntoView({ block: "nearest" });
  getSelection().removeAllRanges();
}

/** Move a selection of whole words inside the caption that has the focus; `more` stretches it. */
export function stepWord(by, more) {
  const cue = document.activeElement.closest(".cue");
  const { start, text } = cues[cue.dataset.cue];
  const found = [...text.matchAll(/\S+/g)].map((match) => [match.index, match.index + match[0].length]);
  if (!found.length) return;
  const chosen = (cue.dataset.words ?? "").split(" ").map(Number);
  const fresh = !cue.dataset.words || getSelection().isCollapsed;
  const clamp = (number) => Math.min(Math.max(number, 0), found.length - 1);
  const head = fresh ? (by > 0 ? 0 : found.length - 1) : clamp(chosen[1] + by);
  const anchor = more && !fresh ? chosen[0] : head;
  cue.dataset.words = `${anchor} ${head}`;
  const range = rangeOf(start + found[Math.min(anchor, head)][0], start + found[Math.max(anchor, head)][1]);
  getSelection().setBaseAndExtent(range.startContainer, range.startOffset, range.endContainer, range.endOffset);
}
