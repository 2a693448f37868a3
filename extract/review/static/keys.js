// The keys: one table that is both what happens and what the page lists.

import { byId, el } from "./dom.js";
import * as act from "./actions.js";
import * as doubts from "./doubts.js";
import { openField } from "./editor.js";
import { fields, sort } from "./fields.js";
import { currentOf, end, step, stepInside } from "./items.js";
import { say } from "./notices.js";
import * as talk from "./talk.js";

const inTalk = () => Boolean(document.activeElement.closest("#talk"));
const onLoose = () => sort(currentOf()) === "loose";

// [keys, what they do in words, function]; the words head a group where there is no function.
const TABLE = [
  ["Doubts"],
  [["n"], "next doubt", () => doubts.stepDoubt(1)],
  [["N"], "doubt before", () => doubts.stepDoubt(-1)],
  [["t"], "take what is suggested", () => doubts.take()],
  [["a"], "keep as it is; then 1 to 4, or a reason and Enter", () => doubts.keep()],
  [["v"], "type the value in doubt; where none is, a new one", () => act.typeValue()],
  [["e"], "doubt again what was settled", () => doubts.reopen()],
  ["Moving"],
  [["ArrowDown"], "next line (in the talk: next caption)", () => (inTalk() ? talk.stepCue(1) : step(1))],
  [["ArrowUp"], "line before", () => (inTalk() ? talk.stepCue(-1) : step(-1))],
  [["ArrowRight"], "next field (in the talk: select a word; with Shift more)", (event) => (inTalk() ? talk.stepWord(1, event.shiftKey) : stepInside(1))],
  [["ArrowLeft"], "field before", (event) => (inTalk() ? talk.stepWord(-1, event.shiftKey) : stepInside(-1))],
  [["Home"], "first line", () => end(1)],
  [["End"], "last line", () => end(-1)],
  [["g"], "go to a number, or to words", () => act.goTo()],
  [["l"], "to the talk and back", () => act.changeSides()],
  [[" "], "play from two seconds before, or pause", () => act.play()],
  ["The line at hand"],
  [["Enter"], "type the field that has the focus; on a quantity without a home: give it to a part", () => enter()],
  [["Delete", "Backspace"], "take out the fact that has the focus, or the whole line", () => act.takeOut()],
  [["="], "type a new value: 47 uF, ripple current 300 mA; a digit begins one too", () => act.newValue()],
  [["s"], "settle the part and go to the next", () => act.settlePart()],
  [["j"], "join with another line for the same part", () => act.join()],
  [["x"], "split pieces off as a line of their own", () => act.split()],
  [["+"], "new part; with words selected in the talk: from them", () => act.addPart()],
  [["B"], "new board", () => act.addBoard()],
  [["P"], "new port", () => act.addPort()],
  ["The record"],
  [["u", "Ctrl+z"], "undo", () => act.undo()],
  [["U", "Ctrl+y", "Ctrl+Z"], "do again", () => act.redo()],
  [["f"], "fold settled parts away, or show them", () => act.fold()],
  [["S"], "confirm the record", () => act.confirmRecord()],
  [["?"], "these keys", () => show()],
];

const BY_KEY = new Map(TABLE.filter((row) => row[2]).flatMap(([keys, , work]) => keys.map((key) => [key, work])));
const NAMES = { " ": "Space", ArrowDown: "↓", ArrowUp: "↑", ArrowRight: "→", ArrowLeft: "←" };

export const ACTIONS = {
  undo: act.undo, redo: act.redo, fold: act.fold, keys: show, theme: act.theme, "confirm-record": act.confirmRecord,
};

function enter() {
  const button = document.activeElement.closest("button");
  if (button) return button.click();
  return onLoose() ? act.place() : openField(currentOf(), fields(currentOf()).find(({ plain }) => plain).field);
}

/** What a key that was pressed outside of any input does. */
export function pressed(event) {
  if (event.altKey || event.metaKey || document.querySelector("dialog[open]")) return;
  if (event.target.closest("input, textarea, audio, video, summary, a")) return;
  const button = event.target.closest("button");
  if (button && (event.key === " " || event.key === "Enter")) return;
  const work = BY_KEY.get(event.ctrlKey ? `Ctrl+${event.key}` : event.key);
  if (work) work(event);
  else if (event.ctrlKey) return;
  else if (/^\d$/.test(event.key)) act.newValue(event.key);
  else if (event.key === "Escape") getSelection().removeAllRanges();
  else if (!(event.key.length === 1 && act.openByKey(event.key))) {
    if (event.key.length === 1) say(`${event.key} does nothing here; ? lists the keys.`, true);
    return;
  }
  event.preventDefault();
}

function show() {
  const rows = [];
  for (const [keys, what, work] of TABLE) {
    if (what === undefined) rows.push(el("h3", {}, keys));
    else rows.push(el("p", {}, ...keys.flatMap((key) => [el("kbd", {}, NAMES[key] ?? key), " "]), what));
    if (keys.includes?.("Delete") && work) rows.push(...FIELDS());
  }
  byId("keys").querySelector("div").replaceChildren(...rows);
  byId("keys").showModal();
}

/** The keys of the fields of the current item. */
function FIELDS() {
  return fields(currentOf()).filter(({ key }) => key && key !== "=").map(({ key, label }) => el("p", {}, el("kbd", {}, key), ` ${label}`));
}
